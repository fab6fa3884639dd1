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

std::string_view words(Together t) {
  switch (t) {
    case Together::sum: return "straight sum";
    case Together::five_thirds: return "5/3 power";
    case Together::one_and_half: return "1.5 power";
    case Together::alone: return "each alone";
  }
  throw std::logic_error("a rule that is not in the list");
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

}  // namespace belay
