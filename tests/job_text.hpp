// A good job and its fixings as text, for tests that spoil one thing of it. Invented.
#pragma once
#include "files/read.hpp"
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <optional>
#include <string>
#include <string_view>

namespace belay::test {

inline constexpr std::string_view good_job = R"([job]
title = "Test house"
drawing = "mm"
importance = 2
drawn = "sheet 1"
fixings = "demo-test.toml"

[site]
class = "N3"
given_by = "nobody: a test"

[block.main]
floor_level = 300
size = [12000, 7800]
walls = { front = "A", right = "B", back = "C", left = "D" }
height = 2700
wall_weight = "0.25 kPa"
trusses = { mark = "T1", max = 900, odd_space = "right" }

[block.main.roof]
shape = "gable"
ridge = "across"
pitch = "22.5 deg"
eaves = 450
verge = 300
weight = { least = "0.35 kPa", greatest = "0.45 kPa", on = "slope" }

[slab]
thickness = 100
beyond = 0

[unless_noted]
B = { brace = "demo-sheet", hold_down = "demo-rod" }
jamb = "demo-bolt"
anchor = { use = "demo-bolt", max = 1200 }
truss = "demo-cleat"
plate = 90
hold_down_in = 100

[mark]
D1 = { size = "2100 x 3000", wind_rated = "N3" }
D3 = "2100 x 820"
W1 = "1200 x 1800"
P9 = { brace = "demo-unit" }

[wall]
A = "B 1200 | D1 | 3600 | D1 | B 1200"
B = "B 1200 | 1800 | W1 | 1800 | B 1200"
C = "B 1800 | 8400 | B 1800"
D = { same_as = "B" }
E = { from_left = 6000, run = "B 1800 | 1690 | D3 | 1690 | B 1800" }
)";

inline constexpr std::string_view good_fixings = R"([fixings]
title = "Invented, for tests"
status = "demo"

[[bracket]]
name = "demo-cleat"
uplift = "6.0 kN"
basis = "design"
source = "invented"

[[anchor]]
name = "demo-bolt"
how = "cast in"
pull = "14 kN"
slide = "11 kN"
together = "straight sum"
least_edge = "45 mm"
concrete = "20 MPa"
basis = "design"
source = "invented"

[[anchor]]
name = "demo-rod"
how = "bonded"
pull = "26 kN"
slide = "14 kN"
together = "5/3 power"
basis = "characteristic"
phi = 0.8
source = "invented"

[[sheet]]
name = "demo-sheet"
racking = "6.0 kN/m"
least_length = "900 mm"
basis = "design"
source = "invented"

[[rated]]
name = "demo-unit"
racking = "9 kN"
length = "900 mm"
greatest_height = "2.7 m"
basis = "design"
source = "invented"

[[strap]]
name = "demo-single"
tension = "8 kN"
pair = false
basis = "allowable"
source = "invented"
)";

// `text` with the first `from` replaced; fails the test when it is not there.
inline std::string with(std::string_view text, std::string_view from, std::string_view to) {
  std::string out(text);
  const auto at = out.find(from);
  INFO("not in the text: " << from);
  REQUIRE(at != std::string::npos);
  return out.replace(at, from.size(), to);
}
inline Opened read(std::string_view job, std::string_view fixings = good_fixings) {
  return read_job(job, "job.toml", [&](std::string_view name) -> std::optional<std::string> {
    if (name == "demo-test.toml") return std::string(fixings);
    return std::nullopt;
  });
}
inline House good(std::string_view job, std::string_view fixings = good_fixings) {
  Opened o = read(job, fixings);
  INFO(render(o.problems, false));
  REQUIRE(o.house.has_value());
  REQUIRE(o.problems.empty());
  return *std::move(o.house);
}

// The same house under a hip roof.
inline std::string good_hip_job() {
  std::string job = with(good_job, "shape = \"gable\"", "shape = \"hip\"");
  job = with(job, "verge = 300\n", "");
  job = with(job, "trusses = { mark = \"T1\", max = 900, odd_space = \"right\" }\n",
             "trusses = [\n"
             "  { mark = \"T1\", max = 900, odd_space = \"right\" },\n"
             "  { mark = \"TG1\", hip_girder = 2400 },\n"
             "  { mark = \"J1\", jacks = 900 },\n"
             "  { mark = \"H1\", hip_rafters = true },\n"
             "]\n");
  return with(job, "truss = \"demo-cleat\"\n", "truss = \"demo-cleat\"\nonto = \"demo-cleat\"\n");
}

// All of a house in one text, to compare two.
inline std::string told(const House& h) {
  const auto chosen = [](const Chosen& c) {
    return c.given() ? fmt::format("{} ({}, {})", c.name, c.by, c.at) : std::string("-");
  };
  const auto mm = [](Length l) { return text(l, metric); };
  std::string out = fmt::format("{} | {} | {} | importance {} | {}\n", h.title, h.drawn, h.file, h.importance,
                                h.print == Print::us ? "us" : "metric");
  for (const auto& b : h.by_others) out += fmt::format("by others: {}: {}\n", b.what, b.who);
  for (const auto& c : h.checked) out += fmt::format("checked: {}: {}\n", c.figure, c.who);
  if (const auto* c = std::get_if<ClassSite>(&h.site))
    out += fmt::format("class {} by {} at {}\n", c->wind_class, c->given_by, c->at);
  if (const auto* a = std::get_if<AsceSite>(&h.site))
    out += fmt::format("asce {} {} {} {} {} {} debris {} by {} at {}\n", a->edition, text(a->speed, metric),
                       a->speed_is, a->exposure, a->risk, a->level,
                       a->debris_region ? (*a->debris_region ? "yes" : "no") : "-", a->given_by, a->at);
  out += fmt::format("block {} {} x {}, floor {}, height {}\n", h.block, mm(h.across), mm(h.up), mm(h.floor_level),
                     mm(h.height));
  out += fmt::format("roof ridge {}, {}, eaves {}, verge {}, {} to {}{}; walls {}\n",
                     h.roof.ridge == Along::across ? "across" : "up", text(h.roof.pitch, metric), mm(h.roof.eaves),
                     mm(h.roof.verge), text(h.roof.weight.least, metric), text(h.roof.weight.greatest, metric),
                     h.roof.weight.on_slope ? " on slope" : "", text(h.wall_weight, metric));
  if (h.roof.shape != RoofShape::gable)
    out += fmt::format("{} roof, high {}\n", words(h.roof.shape), words(h.roof.high));
  for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
    const auto i = static_cast<std::size_t>(side);
    std::string own = h.roof.hipped[i] ? " hipped" : "";
    if (h.roof.own_pitch[i]) own += fmt::format(" pitch {}", text(*h.roof.own_pitch[i], metric));
    if (h.roof.own_overhang[i]) own += fmt::format(" overhang {}", mm(*h.roof.own_overhang[i]));
    if (h.roof.gable_above[i] > zero<Length>()) own += fmt::format(" gable above {}", mm(h.roof.gable_above[i]));
    if (!own.empty()) out += fmt::format("roof at the {}:{}\n", words(side), own);
  }
  for (const auto& t : h.trusses) {
    out += fmt::format("{} at {}: {}{}", t.mark, mm(t.at), chosen(t.bracket), t.girder ? " girder" : "");
    if (t.plies != 1) out += fmt::format(" {} plies", t.plies);
    for (const std::string& w : t.also_on) out += " on " + w;
    out += '\n';
  }
  for (const auto& e : h.hip_ends)
    out += fmt::format("hip end {}: {} at {}: {} onto {}; {}: {} onto {}\n", words(e.side), e.jack, mm(e.jacks),
                       chosen(e.jack_bracket), chosen(e.jack_onto), e.rafter, chosen(e.rafter_bracket),
                       chosen(e.rafter_onto));
  for (const auto& w : h.walls) {
    out += fmt::format("wall {} {} {} {} line {} from {} to {}, anchors {} at {}, plate {}\n", w.name, w.at,
                       w.outside ? words(w.side) : "inside", w.runs == Along::across ? "across" : "up", mm(w.line),
                       mm(w.from), mm(w.to), chosen(w.anchor), mm(w.anchor_spacing), mm(w.plate_width));
    for (const auto& p : w.pieces) {
      out += fmt::format("  {} to {}", mm(p.from), mm(p.to));
      if (p.opening)
        out += fmt::format(" {} {} x {}{}{} rated {} jamb {}", p.opening->mark, mm(p.opening->height),
                           mm(p.opening->width), p.opening->door ? " door" : "", p.opening->stands_open ? " open" : "",
                           p.opening->wind_rated.value_or("-"), chosen(p.opening->jamb));
      if (p.brace)
        out += fmt::format(" {} {} hold-down {} in {}{}{}", p.brace->name, chosen(p.brace->fixing),
                           chosen(p.brace->hold_down), mm(p.brace->hold_down_in),
                           p.brace->plate_anchors_share ? " shares" : "",
                           p.brace->foot ? fmt::format(" foot {}", words(*p.brace->foot)) : "");
      out += '\n';
    }
  }
  out += fmt::format("ties {}; {}; {}\n", chosen(h.walls.front().top_tie), chosen(h.walls.front().stud_tie),
                     chosen(h.walls.front().plate_fixing));
  out += fmt::format("slab {} {} {} beyond {}\n", h.slab.thickness ? mm(*h.slab.thickness) : "-",
                     h.slab.concrete ? text(*h.slab.concrete, metric) : "-",
                     h.slab.cracked ? (*h.slab.cracked ? "cracked" : "uncracked") : "-", mm(h.slab.beyond));
  for (const auto& r : h.remarks) out += fmt::format("remark: {}\n", r);
  return out;
}

}  // namespace belay::test
