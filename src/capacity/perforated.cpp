#include "capacity/perforated.hpp"

#include "capacity/capacity.hpp"
#include "capacity/formulas.hpp"
#include "capacity/formulas_perforated.hpp"

#include <algorithm>

namespace belay {

namespace {

const Units& units_of(const House& h) { return h.print == Print::us ? us : metric; }

const PerforatedBrace* entry_of(const House& h, const Piece& p) {
  return p.brace ? find(h.fixings.perforated, p.brace->planned().name) : nullptr;
}

// By whole millimetres, as drawings give them.
bool long_enough(const House& h, const Wall& w, const PerforatedBrace& b, const Piece& p) {
  return height_of(h, w) <= b.greatest_aspect * (p.to - p.from) + same_place;
}

const std::string& name_of_piece(const Wall& w, std::size_t piece) { return w.pieces[piece].brace->name; }

// Whether the sheet goes on above and below the openings: only where every piece says so.
bool goes_round(const Wall& w, const PerforatedWall& all) {
  return std::all_of(all.parts.begin(), all.parts.end(), [&](const PerforatedWall::Part& p) {
    const auto& brace = w.pieces[p.piece].brace;
    return !brace || brace->round_openings;
  });
}

// The part of a piece that counts by its length: all of it up to twice as high as long.
As<Length> counted_length(const House& h, const Wall& w, std::size_t piece, const Table& practice, Working* working) {
  const Length length = w.pieces[piece].to - w.pieces[piece].from;
  const std::string mark = in_symbol(name_of_piece(w, piece));
  const auto whole = as("L_" + mark, length);
  if (working) given(working, whole.name, fmt::format("length of {}", name_of_piece(w, piece)), length, "the job");
  const double from = practice.number("sdpws_perforated", "narrow_from");
  if (height_of(h, w) <= from * length + same_place) return whole;
  const std::string source = working ? practice.source("sdpws_perforated") : std::string();
  looked_up(working, "k_2", "height over length from which less counts", from, source);
  const double k = formulas::narrow_by_length.told(working, "k_n", source, as("k_2", from), whole,
                                                   as(height_symbol(h, w), height_of(h, w)));
  return as("L_c," + mark, formulas::length_that_counts.told(working, "L_c," + mark, source, as("k_n", k), whole));
}

}  // namespace

std::optional<PerforatedWall> perforated_wall(const House& h, const Wall& w, std::size_t piece) {
  const PerforatedBrace* entry = entry_of(h, w.pieces[piece]);
  if (!entry) return std::nullopt;
  const auto belongs = [&](std::size_t i) {
    const Piece& p = w.pieces[i];
    return p.opening || (p.brace && p.brace->planned().name == entry->terms.name);
  };
  const auto counts = [&](std::size_t i) { return w.pieces[i].brace && long_enough(h, w, *entry, w.pieces[i]); };
  std::size_t first = piece, last = piece;
  while (first > 0 && belongs(first - 1)) --first;
  while (last + 1 < w.pieces.size() && belongs(last + 1)) ++last;
  while (first <= last && !counts(first)) ++first;
  while (last > first && !counts(last)) --last;
  if (first > last || piece < first || piece > last) return std::nullopt;
  PerforatedWall r{{}, w.pieces[first].from, w.pieces[last].to};
  for (std::size_t i = first; i <= last; ++i) r.parts.push_back({i, counts(i)});
  return r;
}

std::string words(const Wall& w, const PerforatedWall& all) {
  const std::string &first = name_of_piece(w, all.parts.front().piece),
                    &last = name_of_piece(w, all.parts.back().piece);
  return first == last ? first : fmt::format("{} to {}", first, last);
}

std::vector<Condition> perforated_conditions(const House& h, const Wall& w, const PerforatedWall& all,
                                             const PerforatedBrace& entry, const Table& practice) {
  std::vector<Condition> r;
  const Units& u = units_of(h);
  const Length height = height_of(h, w);
  const auto at_most = [&](Length most) {
    r.push_back({"height of the wall",
                 fmt::format("at most {}", size_text(most, u)),
                 size_text(height, u),
                 height <= most + same_place ? Met::yes : Met::no,
                 {}});
  };
  at_most(practice.get<Length>("sdpws_perforated", "greatest_height"));
  if (entry.greatest_height) at_most(*entry.greatest_height);
  const auto none = [&](const char* what, const std::vector<Length>& places) {
    const auto in = std::find_if(places.begin(), places.end(),
                                 [&](Length at) { return at > all.from + same_place && at < all.to - same_place; });
    const bool good = in == places.end();
    r.push_back({what, "none", good ? "none" : fmt::format("one at {}", place(*in, u)), good ? Met::yes : Met::no, {}});
  };
  // The whole wall holds by all of its pieces.
  const auto other = std::find_if(all.parts.begin(), all.parts.end(), [&](const PerforatedWall::Part& p) {
    const auto& brace = w.pieces[p.piece].brace;
    return p.counts && (brace->missing() || brace->found_another());
  });
  if (other != all.parts.end())
    r.push_back({"pieces of a wall that is held down at its ends alone",
                 "all as planned",
                 fmt::format("{}{}", name_of_piece(w, other->piece),
                             w.pieces[other->piece].brace->missing() ? " is missing" : " is another"),
                 Met::no,
                 {}});
  std::vector<Length> joints;
  for (const ShopFrame& f : w.frames) joints.push_back(f.to);
  none("joints of frames in a wall that is held down at its ends alone", joints);
  none("steps of the floor in a wall that is held down at its ends alone", w.steps);
  return r;
}

PerforatedFactor perforated_factor(const House& h, const Wall& w, const PerforatedWall& all, std::size_t piece,
                                   const Table& practice, Working* working) {
  const std::string own = in_symbol(name_of_piece(w, all.parts.front().piece));
  if (working && !working->first("perforated wall " + own)) working = nullptr;  // its other pieces tell the same
  const std::string source = working ? practice.source("sdpws_perforated") : std::string();
  const auto symbol = [&](std::string_view s) { return fmt::format("{},{}", s, own); };
  const As<Length> height = as(height_symbol(h, w), height_of(h, w));
  const bool round = goes_round(w, all);
  std::vector<As<Length>> lengths;
  std::vector<As<Area>> areas;
  As<Length> mine = as("", zero<Length>());
  for (const PerforatedWall::Part& part : all.parts) {
    const Piece& p = w.pieces[part.piece];
    if (part.counts) {
      lengths.push_back(counted_length(h, w, part.piece, practice, working));
      if (part.piece == piece) mine = lengths.back();
      continue;
    }
    const bool whole = !p.opening || !round;
    const std::string n = fmt::format("o{}", areas.size() + 1);
    const std::string what = p.opening ? "opening " + p.opening->mark : name_of_piece(w, part.piece);
    const auto width = as(symbol("b_" + n), p.to - p.from),
               high = as(symbol("h_" + n), whole ? height.quantity : p.opening->height);
    if (working) {
      given(working, width.name, fmt::format("width of {}", what), width.quantity, "the job");
      given(working, high.name,
            !p.opening ? fmt::format("{} is too short to count: an opening as high as the wall", what)
            : whole    ? fmt::format("{} as high as the wall: not every piece says that the sheet goes round", what)
                       : fmt::format("height of {}", what),
            high.quantity, whole ? "the safe reading" : "the job");
    }
    areas.push_back(
        as(symbol("A_" + n), formulas::opening_area.told(working, symbol("A_" + n), "geometry", width, high)));
  }
  const auto area = as(symbol("A_o"), total<Area>(working, symbol("A_o"), "all openings of the wall", "sum", areas));
  const auto sheeted =
      as(symbol("L_s"), total<Length>(working, symbol("L_s"), "all lengths that count", "sum", lengths));
  const auto length = as(
      symbol("L_t"),
      given(working, symbol("L_t"), fmt::format("length of the wall {}", words(w, all)), all.to - all.from, "the job"));
  const auto r = as(symbol("r"), formulas::sheeted_part.told(working, symbol("r"), source, area, height, sheeted));
  const auto by_formula =
      as(symbol("C_r"), formulas::perforated_factor.told(working, symbol("C_r"), source, r, length, sheeted));
  const auto one = as("one", given(working, "one", "no more than a wall without openings", 1.0, source));
  return {as(symbol("C_o"),
             least<double>(working, symbol("C_o"), "factor for the openings that counts", source, {by_formula, one})),
          mine};
}

LineLoad perforated_rate(const PerforatedBrace& b, const Table& practice, Working* w) {
  const std::string source = w ? practice.source("sdpws_perforated") : std::string();
  const LineLoad v = design_rate(b.terms, b.racking, w);
  const bool allowable = b.terms.acts_as() == Basis::allowable;
  const auto most = as("v_n", looked_up(w, "v_n", "greatest nominal rate that counts in such a wall",
                                        practice.get<LineLoad>("sdpws_perforated", "greatest_nominal"), source));
  const auto factor = as(allowable ? "Omega_v" : "phi_v",
                         looked_up(w, allowable ? "Omega_v" : "phi_v", allowable ? "its safety factor" : "its phi",
                                   practice.number("sdpws_perforated", allowable ? "omega" : "phi"), source));
  const std::string_view words = "the same for design";
  const LineLoad limit = allowable ? formulas::rate_from_gamma.told_as(w, "v_lim", words, source, most, factor)
                                   : formulas::rate_from_phi.told_as(w, "v_lim", words, source, factor, most);
  return least<LineLoad>(w, "v_p", "rate that counts", source, {as("v", v), as("v_lim", limit)});
}

}  // namespace belay
