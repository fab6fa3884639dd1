// Where a link stands, and the conditions of its sheet that hang on the place.
#include "judge/judge.hpp"
#include "judge/roof_bracing_links.hpp"
#include "judge/seed.hpp"
#include "judge/veranda_links.hpp"
#include "load_path/joists.hpp"

#include <algorithm>

namespace belay {

namespace {

using Of = LinkSeed::Of;

std::string slug(std::string words) {
  std::replace(words.begin(), words.end(), ' ', '/');
  return words;
}

}  // namespace

// Of a wall that two blocks share, the first of them.
std::size_t Judge::block_of(const LinkSeed& s) const {
  const auto of_wall = [&](std::size_t wall) { return f_.house.walls[wall].blocks.front(); };
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket: return f_.roof.member_of(s.a).block;
    case Of::valley: return f_.valleys.crossings[s.a].wing + 1;
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate: return of_wall(f_.studs[s.a].wall);
    case Of::line:
    case Of::least:
    case Of::spacing: return f_.lines[s.a].blocks.front();
    case Of::brace:
    case Of::compression: return of_wall(f_.braces[s.a].wall);
    case Of::support:
    case Of::ground:
    case Of::loose_end:
    case Of::loose_jamb: return of_wall(s.a);
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot:
    case Of::post_ground: return of_wall(f_.verandas.wall_of(*veranda_of(f_, s)));
    case Of::roof_plane:
    case Of::roof_brace:
    case Of::floor_tie:
    case Of::floor_fixing:
    case Of::compression_below:
    case Of::house_slides:
    case Of::house_tips:
    case Of::stump_tie:
    case Of::stump_ground:
    case Of::subfloor: return 0;  // of the main block alone
  }
  return 0;
}

void Judge::place(const LinkSeed& s, Link& l) const {
  const House& h = f_.house;
  const auto on_wall = [&](std::size_t wall, const std::optional<Length>& at) {
    const Wall& w = h.walls[wall];
    l.where.wall = w.name;
    l.where.face = w.outside ? std::string(words(w.side)) : "inside";
    l.where.from_start = at;
  };
  l.where.block = name_of(h, block_of(s));
  l.where.floor = std::string(words(floor_of(s)));
  switch (s.of) {
    case Of::valley:
      l.where.face = "roof";
      l.where.words = f_.valleys.crossings[s.a].words;
      break;
    case Of::girder_bracket:
      l.where.face = "roof";
      l.where.words = f_.roof.bearings()[s.a].words;
      break;
    case Of::bracket: {
      const Bearing& b = f_.roof.bearings()[s.a];
      on_wall(b.feet.at(0).wall, b.feet[0].at);
      l.where.words = b.words;
      break;
    }
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate:
      on_wall(f_.studs[s.a].wall, f_.studs[s.a].at);
      l.where.words = fmt::format("{} {}", l.kind, f_.stud_words(f_.studs[s.a]));
      break;
    case Of::floor_tie: {
      const Crossing& crossing = f_.crossings[s.a];
      on_wall(crossing.wall, f_.walls[crossing.wall].supports[crossing.support].at);
      l.where.words = "floor tie " + f_.support_words(crossing.wall, crossing.support);
      break;
    }
    case Of::floor_fixing:
      on_wall(f_.lines[s.a].walls.front(), std::nullopt);
      l.where.words = "floor to line " + f_.lines[s.a].name;
      break;
    case Of::roof_plane: {
      const RoofPlane& p = roof_bracing_.planes[s.a];
      l.where.face = "roof";
      if (const auto wall = wall_under(h, p.slope)) on_wall(*wall, std::nullopt);
      l.where.words = roof_plane_words(p.slope, f_.shape.ridge, s.sense);
      break;
    }
    case Of::roof_brace: {
      const RoofBrace& b = h.roof_braces[s.a];
      l.where.face = "roof";
      if (const auto wall = wall_under(h, b.slope, b.foot)) on_wall(*wall, b.foot - h.walls[*wall].from);
      l.where.words = roof_brace_words(b);
      break;
    }
    case Of::line:
    case Of::least: {
      const Line& line = f_.lines[s.a];
      on_wall(line.walls.front(), std::nullopt);
      const std::string_view way = line.runs == Along::across ? (s.sense == Sense::plus ? "right" : "left")
                                                              : (s.sense == Sense::plus ? "back" : "front");
      l.where.words = fmt::format("{} {} to the {}", s.of == Of::line ? "line" : "least bracing of", line.name, way);
      break;
    }
    case Of::brace: {
      const BraceAt& b = f_.braces[s.a];
      on_wall(b.wall, h.walls[b.wall].pieces[b.piece].from);
      l.where.words = "brace " + drawn(f_, s.a).name;
      break;
    }
    case Of::support:
    case Of::ground: {
      const Support& x = f_.walls[s.a].supports[s.b];
      on_wall(s.a, x.at);
      const std::string own = f_.support_words(s.a, s.b);
      l.where.words = s.of == Of::ground ? "ground under " + own : own;
      if (s.of == Of::ground) break;
      for (const Stud& t : f_.studs)
        if (t.wall == s.a && t.jamb && t.support == s.b && f_.stud_words(t) != own)
          l.where.also.push_back(f_.stud_words(t));
      for (const BraceEnd& e : x.ends) {
        const std::string end =
            fmt::format("{} {}", h.walls[s.a].pieces[e.piece].brace->name, end_word(h.walls[s.a], e.end));
        if (end != own) l.where.also.push_back(end);
      }
      break;
    }
    case Of::loose_end: {
      const BraceEnd e = f_.walls[s.a].loose_ends[s.b];
      const Piece& p = h.walls[s.a].pieces[e.piece];
      on_wall(s.a, e.end == End::left ? p.from : p.to);
      l.where.words = fmt::format("{} {}", p.brace->name, end_word(h.walls[s.a], e.end));
      break;
    }
    case Of::loose_jamb: {
      const Jamb j = f_.walls[s.a].loose_jambs[s.b];
      const Piece& p = h.walls[s.a].pieces[j.piece];
      on_wall(s.a, j.end == End::left ? p.from : p.to);
      l.where.words = f_.stud_words(stud_of(s));
      break;
    }
    case Of::compression:
    case Of::compression_below: {
      const BraceAt& b = f_.braces[s.a];
      const Piece& p = h.walls[b.wall].pieces[b.piece];
      const auto below = s.of == Of::compression_below ? f_.wall_below(h.walls[b.wall], f_.end_of(s.a, s.end))
                                                       : std::optional<std::size_t>();
      if (below) on_wall(*below, f_.end_of(s.a, s.end) - h.walls[*below].from);
      else on_wall(b.wall, s.end == End::left ? p.from : p.to);
      l.where.words = fmt::format("compression {}{} {}", s.of == Of::compression ? "" : "below ", p.brace->name,
                                  end_word(h.walls[b.wall], s.end));
      break;
    }
    case Of::house_slides:
    case Of::house_tips:
    case Of::subfloor: {
      static constexpr std::array<std::string_view, 4> ways{"right", "back", "left", "front"};
      const std::string_view what = s.of == Of::house_slides ? "house slides"
                                    : s.of == Of::house_tips ? "house tips"
                                                             : "under the floor";
      l.where.words = fmt::format("{} to the {}", what, ways[static_cast<std::size_t>(pushed_to(s))]);
      break;
    }
    case Of::stump_tie:
    case Of::stump_ground: {
      const Stump& stump = stumps_.all[s.a];
      on_wall(stump.walls.front().wall, stump.along);
      l.where.words = fmt::format("{}{}", s.of == Of::stump_ground ? "ground under " : "", stump.words);
      break;
    }
    case Of::spacing:
      l.where.wall = f_.lines[s.a].name;
      l.where.face = "inside";
      l.where.words = fmt::format("spacing {} to {}", f_.lines[s.a].name, f_.lines[s.b].name);
      break;
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot:
    case Of::post_ground: place_of_veranda(f_, s, l.where); break;
  }
  l.id = slug(l.where.words);
}

// The greatest distance between lines: the method's or the job's own, the lesser. Where the method's table is not in
// hand, that of lighter winds when it is passed, which no table can allow.
std::optional<Judge::SpacingLimit> Judge::spacing_limit(const LinkSeed& s, Length b) const {
  const std::optional<Length> by_method = spacing_.greatest                                   ? spacing_.greatest
                                          : spacing_.never_above && b > *spacing_.never_above ? spacing_.never_above
                                                                                              : std::nullopt;
  const BracingAsked& asked = f_.house.bracing;
  const std::optional<Length>& by_job = asked.at_most[static_cast<std::size_t>(f_.lines[s.a].floor)];
  if (by_job && (!by_method || *by_job < *by_method)) return SpacingLimit{*by_job, "the job, by " + asked.given_by};
  return by_method ? std::optional(SpacingLimit{*by_method, spacing_.source}) : std::nullopt;
}

// To the nearest edge of the slab, in plan. An outside wall's fixing stands in the middle of its plate; an inside wall
// may stand half a plate to either side of the line that the drawing gives: the worse. Nothing: the plate's width is
// unknown.
std::optional<Length> Judge::edge_of(std::size_t wall, const Support& s) const {
  const Wall& w = f_.house.walls[wall];
  if (s.edge) return s.edge;  // as it was measured
  if (w.plate_width <= zero<Length>()) return std::nullopt;
  const Point me = in_plan(wall, s);
  const Length doubt = w.outside || f_.side_of_joint(w) ? zero<Length>() : w.plate_width / 2.0;
  const Length doubt_x = w.runs == Along::up ? doubt : zero<Length>(),
               doubt_y = w.runs == Along::across ? doubt : zero<Length>();
  if (!f_.house.wings.empty()) return edge_of_outline(me, w) - doubt;
  const Length in_x = std::min(me.x, f_.house.across - me.x) - doubt_x,
               in_y = std::min(me.y, f_.house.up - me.y) - doubt_y;
  return std::min(in_x, in_y) + f_.house.slab.beyond;
}

// The outline is where outside walls stand, and the slab may go on past it; a step between two slabs is an edge of the
// higher one, at the wall's face.
std::vector<SlabEdge> Judge::edges_of_outline(const Wall& on) const {
  const House& h = f_.house;
  std::vector<SlabEdge> r;
  for (const Wall& w : h.walls)
    if (w.outside && w.floor == Floor::ground) r.push_back({w.runs, w.line, w.from, w.to, h.slab.beyond});
  for (std::size_t b = 1; b <= h.wings.size(); ++b) {
    const Wing& wing = h.wings[b - 1];
    if (wing.level == zero<Length>() || !(stands_in(on, 0) || stands_in(on, b))) continue;
    const bool across = !is_across(outward(wing.joint));
    const bool far = wing.joint == Side::back || wing.joint == Side::right;
    const Length corner = across ? wing.left : wing.front, length = across ? wing.across : wing.up,
                 line = (across ? wing.front : wing.left) + (far ? (across ? wing.up : wing.across) : zero<Length>());
    r.push_back({across ? Along::across : Along::up, line, corner, corner + length, zero<Length>()});
  }
  return r;
}
Length Judge::edge_of_outline(const Point& me, const Wall& on) const {
  Length nearest = everywhere;
  for (const SlabEdge& e : edges_of_outline(on)) {
    const Length at = e.runs == Along::across ? me.x : me.y, off = apart(e.runs == Along::across ? me.y : me.x, e.line);
    const Length past = at < e.from ? e.from - at : at > e.to ? at - e.to : zero<Length>();
    nearest = std::min(nearest, square_root<si::length>(Area(off * off + past * past)) + e.past);
  }
  return nearest;
}

// An inside wall may stand half a plate to either side of its line.
StandsInSlab Judge::stands_in_slab(std::size_t wall, std::size_t support) const {
  const House& h = f_.house;
  const Wall& w = h.walls[wall];
  StandsInSlab r;
  if (w.plate_width <= zero<Length>()) return r;
  const auto doubt_of = [&](const Wall& x, Along square_to) {
    const bool doubtful = !x.outside && !f_.side_of_joint(x) && x.runs != square_to;
    return doubtful ? x.plate_width / 2.0 : zero<Length>();
  };
  const Length doubt_x = doubt_of(w, Along::across), doubt_y = doubt_of(w, Along::up);
  const Point me = in_plan(wall, f_.walls[wall].supports[support]);
  std::array<Length, 4> edges = slab_about(me.x, me.y, edges_of_outline(w));
  for (const Side side : {Side::left, Side::right}) edges[static_cast<std::size_t>(side)] -= doubt_x;
  for (const Side side : {Side::front, Side::back}) edges[static_cast<std::size_t>(side)] -= doubt_y;
  // What was measured to the nearest edge is so; the others are no farther off than planned.
  if (const auto& measured = f_.walls[wall].supports[support].edge)
    *std::min_element(edges.begin(), edges.end()) = *measured;
  r.edges = edges;
  for (std::size_t i = 0; i < f_.walls.size(); ++i)
    for (std::size_t k = 0; k < f_.walls[i].supports.size(); ++k) {
      if ((i == wall && k == support) || h.walls[i].floor != w.floor) continue;
      const Point other = in_plan(i, f_.walls[i].supports[k]);
      const auto nearer = [&](Length d, Length doubt) {
        const Length off = apart(d, zero<Length>());
        const Length left = off > doubt ? off - doubt : zero<Length>();
        return d < zero<Length>() ? -left : left;
      };
      const bool same = i == wall;  // both stand to the same side
      const Length dx = same ? zero<Length>() : doubt_x + doubt_of(h.walls[i], Along::across),
                   dy = same ? zero<Length>() : doubt_y + doubt_of(h.walls[i], Along::up);
      r.neighbours.push_back({nearer(other.x - me.x, dx), nearer(other.y - me.y, dy)});
    }
  return r;
}
const HeldByConcrete* Judge::in_concrete_of(const LinkSeed& s) const {
  if (s.of != Of::support && s.of != Of::post_foot) return nullptr;
  const auto& h = s.of == Of::support ? held_[s.a][s.b] : held_feet_[s.a];
  return h ? &*h : nullptr;
}

// Centre of a fixing in plan: in the middle of an outside wall's plate, on an inside wall's line. The wall at a joint
// stands as an outside wall of the main block would.
Point Judge::in_plan(std::size_t wall, const Support& s) const {
  const Wall& w = f_.house.walls[wall];
  const std::optional<Side> joint = f_.side_of_joint(w);
  const Side side = joint.value_or(w.side);
  const bool far = side == Side::back || side == Side::right;
  const Length line = !w.outside && !joint ? w.line : far ? w.line - w.plate_width / 2.0 : w.line + w.plate_width / 2.0;
  const Length at = w.from + s.at;
  return w.runs == Along::across ? Point{at, line} : Point{line, at};
}

// To the nearest other fixing of any wall: at a corner that is one of the wall round it.
std::optional<Length> Judge::neighbour_of(std::size_t wall, std::size_t support) const {
  const Point me = in_plan(wall, f_.walls[wall].supports[support]);
  std::optional<Area> nearest;
  for (std::size_t w = 0; w < f_.walls.size(); ++w)
    for (std::size_t i = 0; i < f_.walls[w].supports.size(); ++i) {
      if ((w == wall && i == support) || f_.house.walls[w].floor != f_.house.walls[wall].floor) continue;
      const Point other = in_plan(w, f_.walls[w].supports[i]);
      const Area d = (other.x - me.x) * (other.x - me.x) + (other.y - me.y) * (other.y - me.y);
      if (!nearest || d < *nearest) nearest = d;
    }
  return nearest ? std::optional(square_root<si::length>(*nearest)) : std::nullopt;
}

std::optional<Length> Judge::bay_of(const Stud& s) const {
  if (!s.plate) return std::nullopt;
  const auto& on = f_.walls[s.wall].plates[*s.plate].supports;
  for (std::size_t i = 0; i + 1 < on.size(); ++i) {
    const Length a = f_.walls[s.wall].supports[on[i]].at, b = f_.walls[s.wall].supports[on[i + 1]].at;
    if (s.at >= a && s.at <= b) return b - a;
  }
  return std::nullopt;
}

std::vector<Condition> Judge::end_studs_conditions(const LinkSeed& s) const {
  const House& h = f_.house;
  const EndStuds& studs = *find(h.fixings.end_studs, fixing(s)->name);
  auto r = frame_conditions(h, studs.terms, f_.cyclonic(), false);
  const Units& u = h.print == Print::us ? us : metric;
  const Length height = height_of(h, h.walls[f_.braces[s.a].wall]);
  r.push_back({"height of the wall",
               fmt::format("at most {}", size_text(studs.greatest_height, u)),
               size_text(height, u),
               height <= studs.greatest_height + same_place ? Met::yes : Met::no,
               {}});
  if (h.wall_weight <= zero<Pressure>())
    r.push_back({"weight of the walls", "for what presses", "", Met::not_stated, "[block] wall_weight"});
  if (!end_press_.under_the_floor(s.a)) return r;
  if (!h.first->greatest_weight)
    r.push_back(
        {"weight of the first floor, at most", "for what presses", "", Met::not_stated, "floor.first.greatest_weight"});
  if (!h.first->live)
    r.push_back({"load on the first floor", "for what presses", "", Met::not_stated, "floor.first.live"});
  return r;
}

std::vector<Condition> Judge::conditions(const LinkSeed& s) const {
  const House& h = f_.house;
  const Terms* t = terms(s);
  if (s.of == Of::brace) return f_.braces[s.a].capacity.conditions;
  if (s.of == Of::roof_brace) return roof_bracing_.straps[s.a].capacity.conditions;
  if (!t) return {};
  if (s.of == Of::post_foot) return post_foot_conditions(f_, s.a, *find(h.fixings.anchors, fixing(s)->name));
  if (s.of == Of::support) {
    const Support& x = f_.walls[s.a].supports[s.b];
    const Anchor* a = find(h.fixings.anchors, x.fixing.name);
    auto r = anchor_conditions(h, *a, edge_of(s.a, x), neighbour_of(s.a, s.b), f_.cyclonic());
    if (const HeldByConcrete* in = in_concrete_of(s)) r.insert(r.end(), in->conditions.begin(), in->conditions.end());
    const Wall& w = h.walls[s.a];
    if (auto joist = meets_a_joist(h, w, in_plan(s.a, x), *a)) r.push_back(*std::move(joist));
    // A hold-down further from its brace's end than common practice allows does not hold that end.
    const Length reach = f_.practice.get<Length>("anchor_near", "within");
    const Units& u = h.print == Print::us ? us : metric;
    const auto beside = [&](const char* what, std::size_t piece, End end) {
      const Length away = apart(x.at, end == End::left ? w.pieces[piece].from : w.pieces[piece].to);
      r.push_back({what,
                   fmt::format("at most {}", size_text(reach, u)),
                   size_text(away, u),
                   away <= reach + same_place ? Met::yes : Met::no,
                   {}});
    };
    for (const BraceEnd& e : x.ends)
      if (!w.pieces[e.piece].brace->missing()) beside("distance from the brace's end", e.piece, e.end);
    for (const Jamb& j : x.jambs) beside("distance from the jamb", j.piece, j.end);
    if (a->least_edge && w.plate_width <= zero<Length>() && !x.edge)
      r.push_back({"distance to the slab's edge", fmt::format("at least {}", size_text(*a->least_edge, u)), "",
                   Met::not_stated, "[unless_noted] plate"});
    return r;
  }
  if (s.of == Of::compression) return end_studs_conditions(s);
  auto r = frame_conditions(h, *t, f_.cyclonic(), true);
  if (const HeldBySteel* in = steel_of(s)) r.insert(r.end(), in->conditions.begin(), in->conditions.end());
  if (s.of == Of::subfloor) {
    const RatedBrace* unit = find(h.fixings.rated, fixing(s)->name);
    const Units& u = h.print == Print::us ? us : metric;
    r.push_back({"height of the bought unit",
                 fmt::format("at most {}", size_text(unit->greatest_height, u)),
                 size_text(h.floor_level, u),
                 h.floor_level <= unit->greatest_height + same_place ? Met::yes : Met::no,
                 {}});
  }
  if (s.of == Of::floor_fixing)
    if (const Anchor* a = find(h.fixings.anchors, fixing(s)->name); a && a->worked_out)
      r.push_back(worked_out_elsewhere(*a));
  if (s.of == Of::plate) {
    const PlateFixing* p = find(h.fixings.plates, fixing(s)->name);
    const auto bay = bay_of(f_.studs[s.a]);
    const Units& u = h.print == Print::us ? us : metric;
    const auto needs = fmt::format("at most {}", size_text(p->greatest_spacing, u));
    if (bay)
      r.push_back({"distance between the fixings on both sides of the stud",
                   needs,
                   size_text(*bay, u),
                   *bay <= p->greatest_spacing + same_place ? Met::yes : Met::no,
                   {}});
    else
      r.push_back(
          {"distance between the fixings on both sides of the stud", needs, "past the last fixing", Met::no, {}});
  }
  return r;
}

Floor Judge::floor_of(const LinkSeed& s) const {
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket:
    case Of::valley: return block_of(s) == 0 ? top_floor(f_.house) : Floor::ground;
    case Of::roof_plane:
    case Of::roof_brace: return top_floor(f_.house);
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate: return f_.house.walls[f_.studs[s.a].wall].floor;
    case Of::floor_tie: return Floor::first;
    case Of::floor_fixing: return Floor::ground;
    case Of::line:
    case Of::least:
    case Of::spacing: return f_.lines[s.a].floor;
    case Of::brace:
    case Of::compression: return f_.lines[f_.braces[s.a].line].floor;
    case Of::compression_below:  // where nothing stands below, it is told where it comes from
      return f_.wall_below(f_.house.walls[f_.braces[s.a].wall], f_.end_of(s.a, s.end)) ? Floor::ground : Floor::first;
    case Of::support:
    case Of::loose_end:
    case Of::loose_jamb:
    case Of::ground: return f_.house.walls[s.a].floor;
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot:
    case Of::post_ground:
    case Of::house_slides:
    case Of::house_tips:
    case Of::stump_tie:
    case Of::stump_ground:
    case Of::subfloor: return Floor::ground;
  }
  return Floor::ground;
}

}  // namespace belay
