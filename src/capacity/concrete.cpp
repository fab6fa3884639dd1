#include "capacity/concrete.hpp"

#include "capacity/formulas_concrete.hpp"
#include "units/sizes.hpp"

#include <algorithm>

namespace belay {

namespace {

constexpr Length endless = Length::from_value(1e6);  // farther than any slab
constexpr std::array sides{Side::left, Side::front, Side::right, Side::back};
constexpr std::size_t index(Side s) { return static_cast<std::size_t>(s); }
constexpr bool is_level(Side s) { return s == Side::left || s == Side::right; }  // it lies to the left or the right
std::string length_text(Length l, const House& h) { return size_text(l, h.print == Print::us ? us : metric); }

// The entries of one code, marked as they are used.
class Code {
 public:
  Code(const Table& t, std::uint64_t& marks) : t_(t), marks_(marks) {}
  template <class Q = double> Q get(std::string_view entry, std::string_view column) const {
    marks_ |= t_.mark(entry);
    return t_.get<Q>(entry, column);
  }
  // A figure as a step of the working.
  template <class Q = double>
  As<Q> told(Working* w, std::string symbol, const char* words, std::string_view entry, std::string_view column) const {
    const Q x = looked_up(w, symbol, words, get<Q>(entry, column), source(entry));
    return as(std::move(symbol), x);
  }
  // Of a list by category.
  As<double> told_at(Working* w, const char* symbol, const char* words, std::string_view entry, std::string_view column,
                     std::size_t i) const {
    marks_ |= t_.mark(entry);
    const double x = quantity<double>(t_.column(entry, column).at(i));
    return as(std::string(symbol), looked_up(w, symbol, words, x, source(entry)));
  }
  std::string source(std::string_view entry) const { return t_.source(entry); }

 private:
  const Table& t_;
  std::uint64_t& marks_;
};

// A mode in which an anchor may give, and what it holds then, for design.
struct Mode {
  Gives gives;
  As<Force> holds;
};
Force weakest(Working* w, std::string_view symbol, std::string_view words, const std::vector<Mode>& modes,
              Gives& gives) {
  std::vector<As<Force>> all;
  for (const Mode& m : modes) all.push_back(m.holds);
  const auto least_of = std::min_element(
      modes.begin(), modes.end(), [](const Mode& a, const Mode& b) { return a.holds.quantity < b.holds.quantity; });
  gives = least_of->gives;
  return least<Force>(w, symbol, words, "the weakest way to give", all);
}

// What both codes work with.
class Anchored {
 public:
  Anchored(const House& h, const Anchor& a, const StandsInSlab& s, const Table& codes, std::uint64_t& marks, Working* w)
      : house_(h),
        anchor_(a),
        stands_(s),
        code_(codes, marks),
        w_(w),
        d_(*a.made.diameter),
        h_ef_(*a.made.embedment),
        slab_(*h.slab.thickness),
        cracked_(h.slab.cracked.value_or(true)) {}

 protected:
  const House& house_;
  const Anchor& anchor_;
  const StandsInSlab& stands_;
  Code code_;
  Working* w_;
  Length d_, h_ef_, slab_;
  bool cracked_;

  std::string away_words(const std::optional<Length>& away) const { return away ? length_text(*away, house_) : ""; }
  bool cast_in() const { return anchor_.how == How::cast_in; }
  const std::array<Length, 4>& edges() const { return *stands_.edges; }
  std::string of_sheet() const {
    return fmt::format("{}, {} ({})", anchor_.terms.name, anchor_.terms.source, anchor_.terms.at);
  }
  void tell_bolt() const {
    if (!w_) return;
    given(w_, "d", "the bolt's diameter", d_, of_sheet());
    given(w_, "h_ef", "how deep it is embedded", h_ef_, of_sheet());
    given(w_, "A_s", "the bolt's area in tension", *anchor_.made.steel_area, of_sheet());
  }
  // Half way to the nearest neighbour on a side within reach, counted on the side to which it lies further off.
  std::optional<Length> neighbour(Side side, Length reach) const {
    std::optional<Length> nearest;
    for (const StandsInSlab::Off& o : stands_.neighbours) {
      if (size(o.across) >= 2.0 * reach || size(o.up) >= 2.0 * reach) continue;
      const bool level = size(o.across) >= size(o.up);
      const Side lies = level ? (o.across < zero<Length>() ? Side::left : Side::right)
                              : (o.up < zero<Length>() ? Side::front : Side::back);
      const Length off = level ? size(o.across) : size(o.up);
      if (lies == side && (!nearest || off < *nearest)) nearest = off;
    }
    return nearest;
  }
  // How far something that reaches that far goes to one side: up to the edge, or half way to the neighbour.
  As<Length> up_to(const std::string& symbol, Side side, const As<Length>& reach, std::optional<Length> edge,
                   std::optional<Length> neighbour) const {
    std::vector<As<Length>> all{reach};
    const std::string_view word = words(side);
    if (edge && *edge < reach.quantity)
      all.push_back(as(fmt::format("c_{}", word),
                       given(w_, fmt::format("c_{}", word), fmt::format("from the anchor to the edge at the {}", word),
                             *edge, "the job")));
    if (neighbour && *neighbour / 2.0 < reach.quantity) {
      const std::string s = "s_" + symbol.substr(2), half = symbol + "_s";
      given(w_, s, fmt::format("to the next anchor on that side ({})", word), *neighbour, "the job");
      all.push_back(as(half, formulas::half_way.told(w_, half, formulas::half_way.source, as(s, *neighbour))));
    }
    if (all.size() == 1) return reach;
    return as(symbol, least<Length>(w_, symbol, fmt::format("as far as it goes to the {}", word), "geometry", all));
  }
  As<Length> nearest_edge() const {
    const auto at = std::min_element(edges().begin(), edges().end());
    const auto side = static_cast<Side>(at - edges().begin());
    const std::string s = fmt::format("c_{}", words(side));
    given(w_, s, fmt::format("from the anchor to the edge at the {}", words(side)), *at, "the job");
    return as(s, *at);
  }
  // 1 where no edge is within reach.
  As<double> edge_factor(const std::string& symbol, const As<Length>& c, const As<Length>& reach,
                         std::string_view entry) const {
    if (c.quantity >= reach.quantity) return as(symbol, given(w_, symbol, "no edge within its reach", 1.0, "geometry"));
    const std::string k = "k_" + symbol.substr(symbol.find('_') + 1);
    const auto k0 = code_.told(w_, k + "0", "left of it at an edge", entry, "at_edge");
    const auto k1 = code_.told(w_, k + "1", "and more with the distance", entry, "rise");
    return as(symbol, formulas::beside_edge.told(w_, symbol, code_.source(entry), k0, k1, c, reach));
  }
  // The part of a whole cone that stands here: A_N and A_N0.
  struct Part {
    As<Area> here, whole;
  };
  Part cone_part(const As<Length>& reach, std::string_view entry) const {
    std::vector<As<Length>> a;
    for (const Side s : sides)
      a.push_back(up_to(fmt::format("a_{}", words(s)), s, reach, edges()[index(s)], neighbour(s, reach.quantity)));
    const Area here = formulas::cone_area(w_, a[index(Side::left)], a[index(Side::right)], a[index(Side::front)],
                                          a[index(Side::back)]);
    const Area whole = formulas::whole_cone.told(w_, "A_N0", code_.source(entry), reach);
    return {as("A_N", here), as("A_N0", whole)};
  }
  // ---- towards one edge
  // The sides beside a push towards an edge.
  static std::array<Side, 2> beside(Side edge) {
    return is_level(edge) ? std::array{Side::front, Side::back} : std::array{Side::left, Side::right};
  }
  // Neighbours within reach of what breaks out towards an edge: beside it, or before it, nearer to the edge: that one's
  // push breaks out of the same concrete. Those behind push on more of it, which is theirs to look at.
  struct Along {
    std::array<std::optional<Length>, 2> beside;
    int before = 0;
  };
  Along neighbours_along(Side edge, Length reach) const {
    Along r;
    for (const StandsInSlab::Off& o : stands_.neighbours) {
      const Length along = is_level(edge) ? o.up : o.across, off = is_level(edge) ? o.across : o.up;
      if (size(along) >= 2.0 * reach || size(off) >= 2.0 * reach) continue;
      if (size(along) < size(off)) {
        const bool ahead = edge == Side::left || edge == Side::front ? off < zero<Length>() : off > zero<Length>();
        r.before += ahead ? 1 : 0;
        continue;
      }
      auto& nearest = r.beside[along < zero<Length>() ? 0 : 1];
      if (!nearest || size(along) < *nearest) nearest = size(along);
    }
    return r;
  }
  // Whether the push breaks this edge at all: one far off is left out.
  bool within(Side edge, std::string_view entry) const {
    const Length far = std::max(code_.get(entry, "embedments") * h_ef_, code_.get(entry, "diameters") * d_);
    return edges()[index(edge)] <= far;
  }
  // A whole push is taken towards the edge that holds least. by: the code, whose `edge_towards` says what one holds.
  template <class By> std::optional<Side> weakest_edge(std::string_view far, const By& by) const {
    std::optional<Side> r;
    Force least_v = zero<Force>();
    for (const Side s : sides) {
      if (!within(s, far)) continue;
      const Force v = by.edge_towards(s, nullptr).quantity;
      if (!r || v < least_v) {
        r = s;
        least_v = v;
      }
    }
    return r;
  }
  // Between two corners in a thin slab no more of the distance counts than the greatest of the three asks for.
  As<Length> narrow(const As<Length>& c, const As<double>& k, const std::array<Side, 2>& ways,
                    std::string_view entry) const {
    const Length reach = k.quantity * c.quantity;
    std::vector<As<Length>> three;
    for (const Side s : ways) {
      const Length corner = edges()[index(s)];
      if (corner >= reach || slab_ >= reach) return c;
      three.push_back(as(fmt::format("c_{}", words(s)), corner));
    }
    for (std::size_t i = 0; i < 2; ++i)
      given(w_, three[i].name, fmt::format("from the anchor to the edge at the {}", words(ways[i])), three[i].quantity,
            "the job");
    three.push_back(as("h_a", given(w_, "h_a", "thickness of the slab", slab_, "the job's slab")));
    const Length x = greatest<Length>(w_, "x", "the greatest of what bounds it", code_.source(entry), three);
    return as("c_m", formulas::narrow.told(w_, "c_m", code_.source(entry), as("x", x), k));
  }
  struct Cracks {
    double factor;
    const char* words;
    std::string source;
  };
  // All but the strength that the code gives one anchor in an endless edge; `basic` tells that.
  template <class Basic>
  As<Force> edge_here(Side side, std::string_view entry, std::string_view corner, const Cracks& cracks,
                      Basic basic) const {
    const std::string_view word = words(side);
    const As<Length> c = as("c_1", given(w_, "c_1", fmt::format("from the anchor to the edge at the {}", word),
                                         edges()[index(side)], "the job"));
    const auto k = code_.told(w_, "k_r", "it reaches so many times the distance to the edge", entry, "reach");
    const std::array<Side, 2> ways = beside(side);
    const As<Length> counted = narrow(c, k, ways, entry);
    const As<Length> reach = as("r_V", formulas::times_edge.told(w_, "r_V", code_.source(entry), k, counted));
    const Along near = neighbours_along(side, reach.quantity);
    std::array<As<Length>, 2> b{reach, reach};
    for (std::size_t i = 0; i < 2; ++i)
      b[i] = up_to(fmt::format("b_{}", i + 1), ways[i], reach, edges()[index(ways[i])], near.beside[i]);
    const bool thin = slab_ < reach.quantity;
    const As<Length> slab =
        as("h_a", thin ? given(w_, "h_a", "thickness of the slab", slab_, "the job's slab") : slab_);
    const As<Length> deep = thin ? slab : reach;
    const auto area = as("A_V", formulas::edge_area(w_, b[0], b[1], deep));
    const auto whole = as("A_V0", formulas::whole_edge.told(w_, "A_V0", code_.source(entry), reach));
    const std::size_t corner_at = edges()[index(ways[0])] <= edges()[index(ways[1])] ? 0 : 1;
    const Length c2 = edges()[index(ways[corner_at])];
    const std::string c2_symbol = fmt::format("c_{}", words(ways[corner_at]));
    if (c2 < reach.quantity)
      given(w_, c2_symbol, fmt::format("from the anchor to the edge at the {}", words(ways[corner_at])), c2, "the job");
    const auto psi_v = edge_factor("psi_v", as(c2_symbol, c2), reach, corner);
    const auto psi_c = as("psi_v,c", given(w_, "psi_v,c", cracks.words, cracks.factor, cracks.source));
    const auto psi_h = as("psi_h", thin ? formulas::thin_slab.told(w_, "psi_h", code_.source(entry), reach, slab)
                                        : given(w_, "psi_h", "the slab is thick enough", 1.0, "geometry"));
    const As<Force> v_b = basic(counted);
    Force v = formulas::edge.told(w_, "V_c", code_.source(entry), area, whole, psi_v, psi_c, psi_h, v_b);
    if (near.before > 0) {
      const double n = given(w_, "n_l", "it and those before it, nearer to that edge", 1.0 + near.before, "the job");
      v = formulas::shared_in_line.told(w_, "V_cs", formulas::shared_in_line.source, as("V_c", v), as("n_l", n));
      return as("V_cs", v);
    }
    return as("V_c", v);
  }
};

// ---- ACI 318-19 -----------------------------------------------------------------------------------------------------

class ByAci : Anchored {
  friend Anchored;

 public:
  using Anchored::Anchored;
  void work_out(HeldByConcrete& r) {
    tell_bolt();
    tell_strengths();
    std::vector<Mode> pulls{steel_pull()};
    const As<Force> cone = cone_here();
    pulls.push_back(design("cone", std::nullopt, "C_cone", cone, breakout_phi()));
    std::optional<As<Force>> pulled_out = pull_out();
    if (pulled_out) pulls.push_back(design("pull-out", std::nullopt, "C_out", *pulled_out, pull_out_phi()));
    if (anchor_.made.head_area)
      if (const auto side = blown_out()) {
        const As<Force> n = blow_out(*side);
        pulls.push_back(design("blow-out", edges()[index(*side)], "C_side", n, breakout_phi()));
      }
    r.pull = weakest(w_, "C_pull", "what it holds in pull, for design", pulls, r.pull_gives);

    std::vector<Mode> slides{steel_slide()};
    if (const auto side = weakest_edge("aci_edge_far", *this)) {
      const As<Force> v = edge_towards(*side, w_);
      slides.push_back(
          design("edge", edges()[index(*side)], "C_edge", v,
                 code_.told(w_, "phi_v", "phi, no supplementary reinforcement", "aci_phi_breakout", "edge")));
    }
    slides.push_back(pried_out(cone, pulled_out));
    r.slide = weakest(w_, "C_slide", "what it holds in slide, for design", slides, r.slide_gives);
  }

 private:
  As<Pressure> f_c_{"f_c", {}}, f_u_{"f_u", {}};

  std::size_t category() const { return static_cast<std::size_t>(*anchor_.made.category) - 1; }
  void tell_strengths() {
    const char* column = cast_in() ? "cast_in" : "set_later";
    const Pressure most = code_.get<Pressure>("aci_strengths", column);
    if (*house_.slab.concrete > most)
      f_c_.quantity =
          looked_up(w_, "f_c", "strength of the concrete counted at most", most, code_.source("aci_strengths"));
    else f_c_.quantity = given(w_, "f_c", "strength of the concrete", *house_.slab.concrete, "the job's slab");
    const Pressure stated = given(w_, "f_ut", "strength of the bolt's steel", *anchor_.made.ultimate, of_sheet());
    const Pressure yield = given(w_, "f_y", "yield of the bolt's steel", *anchor_.made.yield, of_sheet());
    const auto k = code_.told(w_, "k_y", "of its yield, at most", "aci_strengths", "of_yield");
    const Pressure by_yield = formulas::times_yield.told(w_, "f_1", code_.source("aci_strengths"), k, yield);
    const auto top = code_.told<Pressure>(w_, "f_2", "strength of steel counted at most", "aci_strengths", "steel");
    f_u_.quantity = least<Pressure>(w_, "f_u", "strength of the steel that counts", code_.source("aci_strengths"),
                                    {as("f_ut", stated), as("f_1", by_yield), top});
  }
  Mode design(const char* gives, const std::optional<Length>& away, const char* symbol, const As<Force>& nominal,
              const As<double>& phi) const {
    const Force c = formulas::by_phi.told(w_, symbol, "ACI 318-19 17.5.1.2", phi, nominal);
    return {{gives, away_words(away)}, as(std::string(symbol), c)};
  }
  As<double> breakout_phi() const {
    const char* words = "phi, no supplementary reinforcement";
    return cast_in() ? code_.told(w_, "phi_c", words, "aci_phi_breakout", "cast_in")
                     : code_.told_at(w_, "phi_c", "phi by the anchor's category", "aci_phi_breakout", "set_later",
                                     category());
  }
  As<double> pull_out_phi() const {
    return cast_in() ? code_.told(w_, "phi_p", "phi of pull-out", "aci_phi_pull_out", "cast_in")
                     : code_.told_at(w_, "phi_p", "phi by the anchor's category", "aci_phi_pull_out", "set_later",
                                     category());
  }
  bool ductile() const { return anchor_.made.ductile.value_or(false); }
  As<double> steel_phi(const char* when_ductile, const char* brittle) const {
    return ductile() ? code_.told(w_, "phi_s", "phi of ductile steel", "aci_phi_steel", when_ductile)
                     : code_.told(w_, "phi_s", "phi of steel not stated to be ductile", "aci_phi_steel", brittle);
  }
  Mode steel_pull() const {
    const Force n =
        formulas::anchor_steel_pull.told(w_, "N_sa", "ACI 318-19 17.6.1.2", as("A_s", *anchor_.made.steel_area), f_u_);
    return design("steel", std::nullopt, "C_steel", as("N_sa", n), steel_phi("pull_ductile", "pull_brittle"));
  }
  Mode steel_slide() const {
    const auto k = code_.told(w_, "k_s", "share of the steel that counts in shear", "aci_steel_slide", "share");
    const Force v = formulas::anchor_steel_slide.told(w_, "V_sa", code_.source("aci_steel_slide"), k,
                                                      as("A_s", *anchor_.made.steel_area), f_u_);
    return design("steel", std::nullopt, "C_v,steel", as("V_sa", v), steel_phi("slide_ductile", "slide_brittle"));
  }
  As<Force> cone_here() const {
    const auto k_r = code_.told(w_, "k_r", "it reaches so many embedments", "aci_cone", "reach");
    const As<Length> reach = as("r_N", formulas::cone_reach.told(w_, "r_N", code_.source("aci_cone"), k_r, h_ef_));
    const Part part = cone_part(reach, "aci_cone");
    const auto psi_e = edge_factor("psi_e", nearest_edge(), reach, "aci_cone_edge");
    const auto psi_c = !cracked_ && cast_in()
                           ? code_.told(w_, "psi_c", "concrete stays uncracked", "aci_cone_uncracked", "cast_in")
                           : as("psi_c", given(w_, "psi_c", "taken as cracked", 1.0, "the safe reading"));
    const auto k = code_.told(w_, "k_c", "figure of the code for lbf, in and psi", "aci_cone",
                              cast_in() ? "cast_in" : "set_later");
    const auto n = code_.told(w_, "n", "power of the embedment", "aci_cone", "power");
    const Force n_b = formulas::cone_aci.told(w_, "N_b", code_.source("aci_cone"), k, f_c_, h_ef_, n);
    return as("N_cb", formulas::cone.told(w_, "N_cb", code_.source("aci_cone"), part.here, part.whole, psi_e, psi_c,
                                          as("N_b", n_b)));
  }
  std::optional<As<Force>> pull_out() const {
    if (!cast_in())
      return as("N_p", given(w_, "N_p", "characteristic pull-out, as assessed in cracked concrete",
                             *anchor_.made.pull_out, of_sheet()));
    const auto psi = !cracked_ ? code_.told(w_, "psi_p", "concrete stays uncracked", "aci_pull_out_uncracked", "factor")
                               : as("psi_p", given(w_, "psi_p", "taken as cracked", 1.0, "the safe reading"));
    const std::string source = code_.source("aci_pull_out");
    if (anchor_.made.head_area) {
      const auto k = code_.told(w_, "k_p", "of the concrete's strength over the head", "aci_pull_out", "headed");
      const Area head =
          given(w_, "A_h", "area of the head that bears on concrete", *anchor_.made.head_area, of_sheet());
      return as("N_pn", formulas::pull_out_of_head.told(w_, "N_pn", source, psi, k, as("A_h", head), f_c_));
    }
    const auto k = code_.told(w_, "k_p", "of the concrete's strength on the hook", "aci_pull_out", "hooked");
    const Length stated = given(w_, "e_1", "length of the hook", *anchor_.made.hook, of_sheet());
    const auto most = code_.told(w_, "n_d", "of its diameter, at most", "aci_pull_out", "longest_hook");
    const Length top = formulas::counted_length.told(w_, "e_2", source, most, d_);
    const Length e =
        least<Length>(w_, "e_h", "length of the hook that counts", source, {as("e_1", stated), as("e_2", top)});
    return as("N_pn", formulas::pull_out_of_hook.told(w_, "N_pn", source, psi, k, f_c_, as("e_h", e), d_));
  }
  // The edge so near that a deep head blows the side face out.
  std::optional<Side> blown_out() const {
    const auto at = std::min_element(edges().begin(), edges().end());
    if (h_ef_ <= code_.get("aci_blow_out", "deep") * *at) return std::nullopt;
    return static_cast<Side>(at - edges().begin());
  }
  As<Force> blow_out(Side side) const {
    const std::string source = code_.source("aci_blow_out");
    const As<Length> c = as("c_1", given(w_, "c_1", fmt::format("from the anchor to the edge at the {}", words(side)),
                                         edges()[index(side)], "the job"));
    const auto k = code_.told(w_, "k_b", "figure of the code for lbf, in and psi", "aci_blow_out", "headed");
    const Force whole = formulas::blow_out_aci.told(w_, "N_sb", source, k, c, as("A_h", *anchor_.made.head_area), f_c_);
    const std::array<Side, 2> ways = beside(side);
    const Side corner = edges()[index(ways[0])] <= edges()[index(ways[1])] ? ways[0] : ways[1];
    const Length c2 = std::max(edges()[index(corner)], c.quantity);
    double at_corner = 1.0;
    if (c2 < code_.get("aci_blow_out", "corner_reach") * c.quantity) {
      given(w_, "c_2", "distance to the corner, not less than that to the edge", c2, "the job");
      at_corner = formulas::blow_out_corner.told(
          w_, "k_cb", source, c2, c, code_.told(w_, "n", "figure of the code", "aci_blow_out", "corner_over").quantity);
    } else {
      given(w_, "k_cb", "no corner near", 1.0, source);
    }
    const auto n = code_.told(w_, "n", "neighbours within so many edge distances blow out together", "aci_blow_out",
                              "shared_over");
    const As<Length> reach = as(
        "r_b",
        formulas::times_edge.told(
            w_, "r_b", source, as("k_r", given(w_, "k_r", "half of that to each side", n.quantity / 2.0, source)), c));
    const Along near = neighbours_along(side, reach.quantity);
    std::array<As<Length>, 2> b{reach, reach};
    for (std::size_t i = 0; i < 2; ++i)
      b[i] = up_to(fmt::format("b_{}", i + 1), ways[i], reach, std::nullopt, near.beside[i]);
    const double share = formulas::blow_out_shared.told(w_, "k_sb", source, b[0], b[1], n, c);
    return as("N_bo", formulas::blow_out_here.told(w_, "N_bo", source, as("k_cb", at_corner), as("k_sb", share),
                                                   as("N_sb", whole)));
  }
  As<Force> edge_towards(Side side, Working* w) const {
    ByAci on = *this;
    on.w_ = w;
    return on.edge_of(side);
  }
  As<Force> edge_of(Side side) const {
    const Cracks cracks = cracked_ ? Cracks{1.0, "taken as cracked", "the safe reading"}
                                   : Cracks{code_.get("aci_edge_uncracked", "factor"), "concrete stays uncracked",
                                            code_.source("aci_edge_uncracked")};
    return edge_here(side, "aci_edge", "aci_edge_corner", cracks, [&](const As<Length>& c) {
      const std::string source = code_.source("aci_edge");
      const auto most = code_.told(w_, "n_d", "diameters of its length that count", "aci_edge", "longest");
      const Length counted = formulas::counted_length.told(w_, "l_1", source, most, d_);
      const Length l =
          least<Length>(w_, "l_e", "length that bears in shear", source, {as("h_ef", h_ef_), as("l_1", counted)});
      const auto n = code_.told(w_, "n", "power of the distance", "aci_edge", "power");
      const auto m = code_.told(w_, "m", "power of length over diameter", "aci_edge", "length_power");
      const auto k1 = code_.told(w_, "k_v1", "figure of the code for lbf, in and psi", "aci_edge", "by_diameter");
      const auto k2 = code_.told(w_, "k_v2", "figure of the code for lbf, in and psi", "aci_edge", "at_most");
      const Force v1 = formulas::edge_aci.told(w_, "V_1", source, k1, as("l_e", l), d_, m, f_c_, c, n);
      const Force v2 = formulas::edge_aci_most.told(w_, "V_2", source, k2, f_c_, c, n);
      return as("V_b", least<Force>(w_, "V_b", "breakout of an endless edge by one anchor", source,
                                    {as("V_1", v1), as("V_2", v2)}));
    });
  }
  Mode pried_out(const As<Force>& cone, const std::optional<As<Force>>& pulled_out) const {
    const std::string source = code_.source("aci_pry_out");
    As<Force> n = cone;
    // Of one set later the lesser of cone and pull-out, in which its bond is.
    if (!cast_in())
      n = as("N_cp", least<Force>(w_, "N_cp", "the lesser of cone and pull-out", source, {cone, *pulled_out}));
    const bool deep = h_ef_ >= code_.get<Length>("aci_pry_out", "deep_from");
    const auto k = code_.told(w_, "k_cp", deep ? "of a deep anchor" : "of a shallow anchor", "aci_pry_out",
                              deep ? "deep" : "shallow");
    const Force v = formulas::pry_out.told(w_, "V_cp", source, k, n);
    return design("pry-out", std::nullopt, "C_pry", as("V_cp", v),
                  code_.told(w_, "phi_cp", "phi of pry-out", "aci_phi_pull_out", "pry_out"));
  }
};

// ---- EN 1992-4 ------------------------------------------------------------------------------------------------------

class ByEn : Anchored {
  friend Anchored;

 public:
  using Anchored::Anchored;
  void work_out(HeldByConcrete& r) {
    tell_bolt();
    f_ck_.quantity = given(w_, "f_ck", "strength of the concrete", *house_.slab.concrete, "the job's slab");
    f_u_.quantity = given(w_, "f_u", "strength of the bolt's steel", *anchor_.made.ultimate, of_sheet());
    f_y_.quantity = given(w_, "f_y", "yield of the bolt's steel", *anchor_.made.yield, of_sheet());
    const auto gamma_c = code_.told(w_, "gamma_c", "partial factor of concrete", "en_gamma_concrete", "gamma_c");
    const auto gamma_inst = cast_in() ? code_.told(w_, "gamma_inst", "cast in", "en_gamma_concrete", "cast_in")
                                      : as("gamma_inst", given(w_, "gamma_inst", "how its setting forgives",
                                                               *anchor_.made.gamma_inst, of_sheet()));
    const As<double> gamma =
        as("gamma_Mc",
           formulas::gamma_of_concrete.told(w_, "gamma_Mc", code_.source("en_gamma_concrete"), gamma_c, gamma_inst));
    std::vector<Mode> pulls{steel_pull()};
    const As<Force> cone = cone_here();
    pulls.push_back(design("cone", std::nullopt, "C_cone", cone, gamma));
    const As<Force> pulled_out = pull_out();
    pulls.push_back(design("pull-out", std::nullopt, "C_out", pulled_out, gamma));
    if (anchor_.made.head_area)
      for (const Side s : sides)
        if (edges()[index(s)] <= code_.get("en_blow_out", "from_embedments") * h_ef_) {
          const std::string symbol = fmt::format("C_side,{}", words(s));
          pulls.push_back(design("blow-out", edges()[index(s)], symbol, blow_out(s), gamma));
        }
    r.pull = weakest(w_, "C_pull", "what it holds in pull, for design", pulls, r.pull_gives);

    std::vector<Mode> slides{steel_slide()};
    if (const auto side = weakest_edge("en_edge_far", *this))
      slides.push_back(design("edge", edges()[index(*side)], "C_edge", edge_towards(*side, w_), gamma));
    slides.push_back(pried_out(cone, pulled_out, gamma));
    r.slide = weakest(w_, "C_slide", "what it holds in slide, for design", slides, r.slide_gives);
  }

 private:
  As<Pressure> f_ck_{"f_ck", {}}, f_u_{"f_u", {}}, f_y_{"f_y", {}};

  Mode design(const char* gives, const std::optional<Length>& away, const std::string& symbol, const As<Force>& nominal,
              const As<double>& gamma) const {
    const Force c = formulas::by_gamma.told(w_, symbol, "EN 1992-4 4.4", nominal, gamma);
    return {{gives, away_words(away)}, as(symbol, c)};
  }
  Mode steel_pull() const {
    const Force n =
        formulas::anchor_steel_pull.told(w_, "N_s", "EN 1992-4 7.2.1.3", as("A_s", *anchor_.made.steel_area), f_u_);
    const std::string source = code_.source("en_gamma_steel");
    const auto k = code_.told(w_, "k", "times strength over yield", "en_gamma_steel", "pull");
    const double by_yield = formulas::gamma_of_steel.told(w_, "gamma_1", source, k, f_u_, f_y_);
    const auto at_least = code_.told(w_, "gamma_2", "and at least", "en_gamma_steel", "pull_least");
    const double gamma = greatest<double>(w_, "gamma_Ms", "partial factor of the steel in pull", source,
                                          {as("gamma_1", by_yield), at_least});
    return design("steel", std::nullopt, "C_steel", as("N_s", n), as("gamma_Ms", gamma));
  }
  Mode steel_slide() const {
    const bool hard = f_u_.quantity > code_.get<Pressure>("en_steel_slide", "hard_from");
    const auto k6 = code_.get("en_steel_slide", hard ? "hard" : "mild");
    const bool ductile = anchor_.made.ductile.value_or(false);
    const auto k7 = code_.get("en_steel_slide", ductile ? "ductile" : "brittle");
    const std::string of = code_.source("en_steel_slide");
    looked_up(w_, "k_6", hard ? "share in shear of hard steel" : "share in shear of mild steel", k6, of);
    looked_up(w_, "k_7", ductile ? "ductile steel" : "steel not stated to be ductile", k7, of);
    const double k = formulas::gamma_of_concrete.told_as(w_, "k_s", "share of the steel that counts in shear", of,
                                                         as("k_6", k6), as("k_7", k7));
    const Force v =
        formulas::anchor_steel_slide.told(w_, "V_s", of, as("k_s", k), as("A_s", *anchor_.made.steel_area), f_u_);
    const std::string source = code_.source("en_gamma_steel");
    const bool mild = f_u_.quantity <= code_.get<Pressure>("en_gamma_steel", "hard_from") &&
                      f_y_.quantity <= code_.get("en_gamma_steel", "hard_ratio") * f_u_.quantity;
    double gamma = 0.0;
    if (mild) {
      const auto kg = code_.told(w_, "k", "times strength over yield", "en_gamma_steel", "slide");
      const double by_yield = formulas::gamma_of_steel.told(w_, "gamma_3", source, kg, f_u_, f_y_);
      const auto at_least = code_.told(w_, "gamma_4", "and at least", "en_gamma_steel", "slide_least");
      gamma = greatest<double>(w_, "gamma_Mv", "partial factor of the steel in shear", source,
                               {as("gamma_3", by_yield), at_least});
    } else {
      gamma =
          code_.told(w_, "gamma_Mv", "partial factor of hard steel in shear", "en_gamma_steel", "slide_hard").quantity;
    }
    return design("steel", std::nullopt, "C_v,steel", as("V_s", v), as("gamma_Mv", gamma));
  }
  As<Force> cone_here() const {
    const auto k_r = code_.told(w_, "k_r", "it reaches so many embedments", "en_cone", "reach");
    const As<Length> reach = as("r_N", formulas::cone_reach.told(w_, "r_N", code_.source("en_cone"), k_r, h_ef_));
    const Part part = cone_part(reach, "en_cone");
    const auto psi_s = edge_factor("psi_s", nearest_edge(), reach, "en_cone_edge");
    const std::string of_shell = code_.source("en_shell");
    const Length d_0 = code_.get<Length>("en_shell", "depth");
    const double shallow = code_.get("en_shell", "least");
    double psi_re = 1.0;
    if (shallow + static_cast<double>(h_ef_ / d_0) < 1.0) {
      looked_up(w_, "k_0", "left of it at the surface", shallow, of_shell);
      looked_up(w_, "d_0", "figure of the code", d_0, of_shell);
      psi_re = formulas::shell.told(w_, "psi_re", of_shell, as("k_0", shallow), h_ef_, d_0);
    } else {
      given(w_, "psi_re", "deep enough to pass close reinforcement", 1.0, of_shell);
    }
    const bool uncracked = !cracked_ && cast_in();
    const auto k = code_.told(
        w_, "k_1",
        uncracked ? "figure of the code for N and mm, uncracked" : "figure of the code for N and mm, cracked",
        "en_cone",
        !cast_in()  ? "set_later"
        : uncracked ? "cast_in_uncracked"
                    : "cast_in");
    const auto n = code_.told(w_, "n", "power of the embedment", "en_cone", "power");
    const Force n_0 = formulas::cone_en.told(w_, "N_0", code_.source("en_cone"), k, f_ck_, h_ef_, n);
    return as("N_c", formulas::cone.told(w_, "N_c", code_.source("en_cone"), part.here, part.whole, psi_s,
                                         as("psi_re", psi_re), as("N_0", n_0)));
  }
  As<Force> pull_out() const {
    if (!cast_in())
      return as("N_p", given(w_, "N_p", "characteristic pull-out, as assessed in cracked concrete",
                             *anchor_.made.pull_out, of_sheet()));
    const Area head = given(w_, "A_h", "area of the head that bears on concrete", *anchor_.made.head_area, of_sheet());
    const auto k = code_.told(w_, "k_2", cracked_ ? "taken as cracked" : "concrete stays uncracked", "en_pull_out",
                              cracked_ ? "cracked" : "uncracked");
    const double psi = given(w_, "psi_p", "in k_2 already", 1.0, code_.source("en_pull_out"));
    return as("N_p", formulas::pull_out_of_head.told(w_, "N_p", code_.source("en_pull_out"), as("psi_p", psi), k,
                                                     as("A_h", head), f_ck_));
  }
  As<Force> blow_out(Side side) const {
    const std::string source = code_.source("en_blow_out"), word(words(side));
    const auto here_is = [&](const char* symbol) { return fmt::format("{},{}", symbol, word); };
    const As<Length> c =
        as("c_" + word, given(w_, "c_" + word, fmt::format("from the anchor to the edge at the {}", word),
                              edges()[index(side)], "the job"));
    const auto k_r =
        code_.told(w_, "k_rb", "it reaches so many times the distance to the edge", "en_blow_out", "reach");
    const As<Length> reach = as(here_is("r_b"), formulas::times_edge.told(w_, here_is("r_b"), source, k_r, c));
    const Along near = neighbours_along(side, reach.quantity);
    const std::array<Side, 2> ways = beside(side);
    std::array<As<Length>, 2> b{reach, reach};
    for (std::size_t i = 0; i < 2; ++i)
      b[i] = up_to(fmt::format("b_{},{}", i + 1, word), ways[i], reach, edges()[index(ways[i])], near.beside[i]);
    // Of two edges so near the slab below the head is told once.
    Working* const once = w_ && w_->first("the slab below the head") ? w_ : nullptr;
    const Length slab = given(once, "h_a", "thickness of the slab", slab_, "the job's slab");
    const Length below = formulas::below_head(once, slab, h_ef_);
    const Length down =
        least<Length>(w_, here_is("h_d"), "as far as it goes down", "geometry", {reach, as("h_b", below)});
    const Area here =
        formulas::face_area.told(w_, here_is("A_b"), "geometry", b[0], b[1], reach, as(here_is("h_d"), down));
    const Area whole = formulas::whole_cone.told_as(w_, here_is("A_b0"), "area of a whole blow-out", source, reach);
    const Side corner = edges()[index(ways[0])] <= edges()[index(ways[1])] ? ways[0] : ways[1];
    const Length c2 = edges()[index(corner)];
    const std::string c2_symbol = fmt::format("c_{}", words(corner));
    if (c2 < reach.quantity)
      given(w_, c2_symbol, fmt::format("from the anchor to the edge at the {}", words(corner)), c2, "the job");
    const auto psi = edge_factor(here_is("psi_b"), as(c2_symbol, c2), reach, "en_blow_out");
    const auto k =
        code_.told(w_, "k_5", "figure of the code for N and mm", "en_blow_out", cracked_ ? "cracked" : "uncracked");
    const Force basic =
        formulas::blow_out_en.told(w_, here_is("N_0,cb"), source, k, c, as("A_h", *anchor_.made.head_area), f_ck_);
    return as(here_is("N_bo"), formulas::blow_out.told(w_, here_is("N_bo"), source, as(here_is("A_b"), here),
                                                       as(here_is("A_b0"), whole), psi, as(here_is("N_0,cb"), basic)));
  }
  As<Force> edge_towards(Side side, Working* w) const {
    ByEn on = *this;
    on.w_ = w;
    return on.edge_of(side);
  }
  As<Force> edge_of(Side side) const {
    return edge_here(
        side, "en_edge", "en_edge_corner", {1.0, "in k_9 already", code_.source("en_edge")}, [&](const As<Length>& c) {
          const std::string source = code_.source("en_edge");
          const bool thick = d_ > code_.get<Length>("en_edge", "thick_from");
          const auto most = code_.told(w_, "n_d", "diameters of its length that count", "en_edge",
                                       thick ? "thick_longest" : "longest");
          std::vector<As<Length>> lengths{as("h_ef", h_ef_)};
          const Length counted = formulas::counted_length.told(w_, "l_1", source, most, d_);
          if (thick) {
            const auto some = code_.told<Length>(w_, "l_2", "and at least", "en_edge", "thick_at_least");
            lengths.push_back(as(
                "l_3", greatest<Length>(w_, "l_3", "length that counts at most", source, {as("l_1", counted), some})));
          } else {
            lengths.push_back(as("l_1", counted));
          }
          const As<Length> l = as("l_f", least<Length>(w_, "l_f", "length that bears in shear", source, lengths));
          const auto ka = code_.told(w_, "k_a", "figure of the code", "en_edge", "alpha");
          const auto ma = code_.told(w_, "m_a", "figure of the code", "en_edge", "alpha_power");
          const auto kb = code_.told(w_, "k_b", "figure of the code", "en_edge", "beta");
          const auto mb = code_.told(w_, "m_b", "figure of the code", "en_edge", "beta_power");
          const double alpha = formulas::edge_power.told_as(w_, "alpha", "power of the diameter", source, ka, l, c, ma);
          const double beta =
              formulas::edge_power.told_as(w_, "beta", "power of the length", source, kb, as("d", d_), c, mb);
          const auto k9 =
              code_.told(w_, "k_9", "figure of the code for N and mm", "en_edge", cracked_ ? "cracked" : "uncracked");
          const auto n = code_.told(w_, "n", "power of the distance", "en_edge", "power");
          return as("V_0", formulas::edge_en.told(w_, "V_0", source, k9, d_, as("alpha", alpha), l, as("beta", beta),
                                                  f_ck_, c, n));
        });
  }
  Mode pried_out(const As<Force>& cone, const As<Force>& pulled_out, const As<double>& gamma) const {
    const std::string source = code_.source("en_pry_out");
    As<Force> n = cone;
    if (!cast_in())
      n = as("N_cp", least<Force>(w_, "N_cp", "the lesser of cone and pull-out", source, {cone, pulled_out}));
    const bool deep = h_ef_ >= code_.get<Length>("en_pry_out", "deep_from");
    const auto k = code_.told(w_, "k_8", deep ? "of a deep fastener" : "of a shallow fastener", "en_pry_out",
                              deep ? "deep" : "shallow");
    const Force v = formulas::pry_out.told(w_, "V_cp", source, k, n);
    return design("pry-out", std::nullopt, "C_pry", as("V_cp", v), gamma);
  }
};

// ---- conditions -----------------------------------------------------------------------------------------------------

Condition not_stated(std::string what, std::string needs, std::string key) {
  return {std::move(what), std::move(needs), "", Met::not_stated, std::move(key)};
}
Condition at_least(const char* what, Length needs, Length has, const House& h) {
  return {what,
          fmt::format("at least {}", length_text(needs, h)),
          length_text(has, h),
          has >= needs - same_place ? Met::yes : Met::no,
          {}};
}

// What the code cannot be used without: of the job, and of the product's own assessment.
void ask_for_what_is_missing(const House& h, const Anchor& a, const StandsInSlab& s, std::vector<Condition>& r) {
  const auto of_entry = [&](const char* key) { return fmt::format("`{}` of {}", key, a.terms.name); };
  if (!h.slab.concrete) r.push_back(not_stated("strength of the concrete", "for the sums", "[slab] concrete"));
  if (!h.slab.thickness) r.push_back(not_stated("thickness of the slab", "for the sums", "[slab] thickness"));
  if (!s.edges) r.push_back(not_stated("distance to the slab's edges", "for the sums", "[unless_noted] plate"));
  const bool en = a.worked_out == ConcreteCode::en_1992_4;
  if (a.how == How::cast_in && !a.made.head_area && en)
    r.push_back(not_stated("head of the bolt", "EN 1992-4 has no rule for a hook", of_entry("head_area")));
  if (a.how != How::cast_in) {
    if (!a.made.pull_out)
      r.push_back(
          not_stated("pull-out by its own assessment", "characteristic, in cracked concrete", of_entry("pull_out")));
    if (!en && !a.made.category)
      r.push_back(not_stated("category by its own assessment", "1, 2 or 3", of_entry("category")));
    if (en && !a.made.gamma_inst)
      r.push_back(not_stated("gamma_inst by its own assessment", "1 or more", of_entry("gamma_inst")));
  }
  // ACI 318 has least distances of its own for what is cast in; else the product has them.
  if (a.how == How::cast_in && !en) return;
  if (!a.least_edge)
    r.push_back(not_stated("distance to the slab's edge", "the sheet's figure", of_entry("least_edge")));
  if (!a.least_spacing)
    r.push_back(not_stated("distance to the next anchor", "the sheet's figure", of_entry("least_spacing")));
}

void keep_the_codes_distances(const House& h, const Anchor& a, const StandsInSlab& s, const Code& code,
                              std::vector<Condition>& r) {
  const Length d = *a.made.diameter, depth = *a.made.embedment;
  if (h.slab.thickness) {
    Length most = *h.slab.thickness;
    if (a.how != How::cast_in && a.worked_out == ConcreteCode::aci_318_19)
      most = std::max(code.get("aci_depth", "share") * most, most - code.get<Length>("aci_depth", "left"));
    const bool fits = a.how == How::cast_in ? depth < most - same_place : depth <= most + same_place;
    r.push_back({"embedment within the slab",
                 fmt::format("{} {}", a.how == How::cast_in ? "less than" : "at most", length_text(most, h)),
                 length_text(depth, h),
                 fits ? Met::yes : Met::no,
                 {}});
  }
  if (a.worked_out != ConcreteCode::aci_318_19) return;
  if (a.made.hook) {
    const Length least_hook = code.get("aci_pull_out", "shortest_hook") * d;
    r.push_back(at_least("length of the hook", least_hook, *a.made.hook, h));
  }
  // A nut that is tightened more than by hand wants more concrete beside it; unstated it is taken to be.
  const bool torqued = a.made.torqued.value_or(true);
  const double diameters = code.get("aci_least", torqued ? "torqued_diameters" : "spacing_diameters");
  if (s.edges && a.how == How::cast_in) {
    const Length needs = torqued ? diameters * d : code.get<Length>("aci_least", "cover") + d / 2.0;
    r.push_back(at_least("distance to the slab's edge by ACI 318", needs,
                         *std::min_element(s.edges->begin(), s.edges->end()), h));
  }
  const auto off = [](const StandsInSlab::Off& o) {
    return square_root<si::length>(Area(o.across * o.across + o.up * o.up));
  };
  std::optional<Length> nearest;
  for (const StandsInSlab::Off& o : s.neighbours)
    if (const Length far = off(o); !nearest || far < *nearest) nearest = far;
  if (nearest) r.push_back(at_least("distance to the next anchor by ACI 318", diameters * d, *nearest, h));
}

}  // namespace

std::array<Length, 4> slab_about(Length across, Length up, const std::vector<SlabEdge>& outline) {
  std::array<Length, 4> r;
  r.fill(endless);
  // Negative: to the left or the front.
  const auto to = [&](bool level, Length off) -> Length& {
    const Side side =
        level ? (off < zero<Length>() ? Side::left : Side::right) : (off < zero<Length>() ? Side::front : Side::back);
    return r[index(side)];
  };
  // First the edges beside the place, then those that begin past it, where they enter what is left.
  for (const bool beside : {true, false})
    for (const SlabEdge& e : outline) {
      const bool runs_across = e.runs == Along::across;
      const Length at = runs_across ? across : up, off = e.line - (runs_across ? up : across);
      const Length past = at < e.from ? e.from - at : at > e.to ? e.to - at : zero<Length>();
      if ((past == zero<Length>()) != beside) continue;
      Length &square = to(!runs_across, off), &along = to(runs_across, past);
      const Length to_line = size(off) + e.past, to_end = size(past) + e.past;
      if (beside) square = std::min(square, to_line);
      else if (to_line < square && to_end < along) (to_line >= to_end ? square : along) = std::max(to_line, to_end);
    }
  return r;
}

HeldByConcrete held_by_concrete(const House& h, const Anchor& a, const StandsInSlab& s, const Table& codes,
                                Working* w) {
  HeldByConcrete r;
  ask_for_what_is_missing(h, a, s, r.conditions);
  const bool known = r.conditions.empty();
  keep_the_codes_distances(h, a, s, Code(codes, r.marks), r.conditions);
  if (!known) return r;
  // On the very edge, or past it, nothing holds.
  if (*std::min_element(s.edges->begin(), s.edges->end()) <= zero<Length>()) {
    r.conditions.push_back(at_least("distance to the slab's edge", *a.made.diameter,
                                    *std::min_element(s.edges->begin(), s.edges->end()), h));
    return r;
  }
  const InSmallUnits small(w);
  if (a.worked_out == ConcreteCode::aci_318_19) ByAci(h, a, s, codes, r.marks, w).work_out(r);
  else ByEn(h, a, s, codes, r.marks, w).work_out(r);
  return r;
}

Condition worked_out_elsewhere(const Anchor& a) {
  return not_stated("what it holds here", "figures of a sheet: it is worked out in the slab under walls alone",
                    fmt::format("`pull` and `slide` of {}", a.terms.name));
}

std::optional<Together> rule_of(const Anchor& a) {
  return a.worked_out && !a.together ? std::optional(Together::sum) : a.together;
}

}  // namespace belay
