// The words that people read for the closed lists of the job and of the supplier's sheets.
#include "belay/job.hpp"
#include <stdexcept>

namespace belay {

std::string_view words(Basis b) {
  switch (b) {
    case Basis::limit_state: return "limit state (design)";
    case Basis::allowable: return "allowable";
  }
  throw std::logic_error("a basis that is not in the list");
}

std::string_view words(Ceiling c) {
  switch (c) {
    case Ceiling::flexible: return "flexible";
    case Ceiling::rigid: return "rigid";
    case Ceiling::both: return "both";
  }
  throw std::logic_error("a ceiling that is not in the list");
}

std::string_view words(Together t) {
  switch (t) {
    case Together::sum: return "straight sum";
    case Together::five_thirds: return "5/3 power";
    case Together::one_and_half: return "1.5 power";
    case Together::alone: return "each alone";
  }
  throw std::logic_error("a rule that is not in the list");
}

std::string_view words(FigureIs f) {
  switch (f) {
    case FigureIs::design: return "design";
    case FigureIs::characteristic: return "characteristic";
    case FigureIs::allowable: return "allowable";
  }
  throw std::logic_error("a basis that is not in the list");
}

std::string_view words(CyclicTest t) {
  switch (t) {
    case CyclicTest::tested: return "tested";
    case CyclicTest::only_static: return "static";
  }
  throw std::logic_error("a test that is not in the list");
}

std::string_view words(WorkedOut o) {
  switch (o) {
    case WorkedOut::aisi_s100_16: return "AISI S100-16";
    case WorkedOut::as_nzs_4600_2018: return "AS/NZS 4600:2018";
  }
  throw std::logic_error("a standard that is not in the list");
}

std::string_view words(Narrow n) {
  switch (n) {
    case Narrow::twice_length_over_height: return "2b/h";
    case Narrow::by_eighths: return "1.25 - 0.125 h/b";
  }
  throw std::logic_error("a rule for narrow sheets that is not in the list");
}

std::string_view words(LeastBracing b) {
  switch (b) {
    case LeastBracing::nzs_3604: return "NZS 3604";
  }
  throw std::logic_error("a rule for the least bracing that is not in the list");
}

std::string_view words(ScrewsIn s) {
  switch (s) {
    case ScrewsIn::shear: return "shear";
    case ScrewsIn::tension: return "tension";
  }
  throw std::logic_error("a way to load screws that is not in the list");
}

std::string_view words(How h) {
  switch (h) {
    case How::cast_in: return "cast in";
    case How::drilled: return "drilled";
    case How::screwed: return "screwed";
    case How::bonded: return "bonded";
    case How::into_timber: return "into timber";
    case How::into_steel: return "into steel";
    case How::through_floor: return "through floor";
  }
  throw std::logic_error("a way to set an anchor that is not in the list");
}

std::string_view words(ConcreteCode c) {
  switch (c) {
    case ConcreteCode::aci_318_19: return "ACI 318-19";
    case ConcreteCode::en_1992_4: return "EN 1992-4";
  }
  throw std::logic_error("a code of concrete that is not in the list");
}

std::string_view words(Mirror m) {
  switch (m) {
    case Mirror::left_right: return "left to right";
    case Mirror::front_back: return "front to back";
  }
  throw std::logic_error("a mirror that is not in the list");
}

std::string_view words(Side s) {
  switch (s) {
    case Side::left: return "left";
    case Side::front: return "front";
    case Side::right: return "right";
    case Side::back: return "back";
  }
  throw std::logic_error("a side that is not in the list");
}

std::string_view words(Floor f) {
  switch (f) {
    case Floor::ground: return "ground";
    case Floor::first: return "first";
  }
  throw std::logic_error("a floor that is not in the list");
}

std::string_view words(RoofShape s) {
  switch (s) {
    case RoofShape::gable: return "gable";
    case RoofShape::hip: return "hip";
    case RoofShape::skillion: return "skillion";
    case RoofShape::flat: return "flat";
  }
  throw std::logic_error("a roof's shape that is not in the list");
}

std::string_view words(HillShape s) {
  switch (s) {
    case HillShape::hill: return "hill";
    case HillShape::ridge: return "ridge";
    case HillShape::escarpment: return "escarpment";
  }
  throw std::logic_error("a shape that is not in the list");
}

Floor top_floor(const House& h) { return h.first ? Floor::first : Floor::ground; }
Length wall_height(const House& h, Floor f) { return f == Floor::first ? h.first->height : h.height; }
Length foot_of_walls(const House& h, Floor f) { return f == Floor::first ? h.height + h.first->depth : zero<Length>(); }
Length top_of_walls(const House& h) { return foot_of_walls(h, top_floor(h)) + wall_height(h, top_floor(h)); }

}  // namespace belay
