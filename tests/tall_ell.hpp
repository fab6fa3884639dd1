// A house in the shape of an L, as a job's text: a main block of two floors, 12 m by 8 m, its ridge across, and before
// its front, flush with its right, a garage of one floor, 6 m by 5 m, its ridge up. Gables of 25 degrees, no overhangs,
// a truss every metre. Walls of 2.7 m and 2.55 m above a floor of 0.35 m: bearings at 5.6 m. Invented.
//
//   F |------ E ------| D        y = 8     First floor: E, D, A (0 to 12 m), F all round.
//     |               |
//     |-- A --|-- G --|          y = 0     Ground floor: G stands at the joint.
//             B       | D
//             |-- C --|          y = -5    Of the garage alone.
//             x = 6   x = 12
#pragma once
#include "grid_blocks.hpp"
#include <string>

namespace belay::test {

struct TallEll {
  bool garage = true;
  std::string site = "class = \"N3\"\ngiven_by = \"a test\"", basis = "design";
  std::string weight = "0.40 kPa", wall_weight = "", slab = "0", pitch = "25 deg", hold_down_in = "100";
  std::string heights = "{ ground = 2700, first = 2550 }", garage_height = "2700";
  std::string main_walls = "front = \"A\", right = \"D\", back = \"E\", left = \"F\"";
  std::string garage_walls = "front = \"C\", right = \"D\", left = \"B\"";
  std::string floor_fixing = "floor_fixing = { use = \"demo-screw\", max = 600 }\n";
  std::string joint =
      "G = { in = \"main\", from_front = 0, between = [6000, 12000], run = \"B 2000 | 2000 | B 2000\" }\n";
  std::string first_a = "A = \"B 2000 | 8000 | B 2000\"\n", more_ground = "", more_first = "", more_main = "",
              garage_trusses = "mark = \"T2\", max = 1000";

  std::string job() const {
    const auto roof = [&](const char* ridge) {
      return fmt::format(
          "roof = {{ shape = \"gable\", ridge = \"{}\", pitch = \"{}\", eaves = 0, verge = 0, weight = \"{}\" }}\n",
          ridge, std::string_view(ridge) == "up" ? pitch : "25 deg", weight);
    };
    std::string text =
        "[job]\ntitle = \"Tall L, invented\"\ndrawing = \"mm\"\nimportance = 2\ndrawn = \"none\"\nfixings = "
        "\"demo-test.toml\"\n#\n\n[site]\n" +
        site + "\n\n[block.main]\nfloor_level = 300\nsize = [12000, 8000]\nwalls = { " + main_walls +
        " }\nheight = " + heights + "\nfloor = { first = { depth = 350 } }\n" + roof("across") +
        (wall_weight.empty() ? "" : "wall_weight = " + wall_weight + "\n") +
        "trusses = { mark = \"T1\", max = 1000 }\n" + more_main + "\n";
    if (garage)
      text +=
          "[block.garage]\nsize = [6000, 5000]\nplace = { against = \"main front\", flush = \"right\" }\nwalls = { " +
          garage_walls + " }\nheight = " + garage_height + "\nslab = " + slab + "\n" + roof("up") + "trusses = { " +
          garage_trusses + " }\n\n";
    text += "[slab]\nconcrete = \"25 MPa\"\n\n[unless_noted]\n";
    const Draft noted;
    for (const auto& [k, v] : noted.unless_noted)
      if (k != "jamb" && k != "anchor") text += fmt::format("{} = {}\n", k, v);
    text +=
        "hold_down_in = " + hold_down_in + "\nfloor_tie = \"demo-tie\"\n" + floor_fixing +
        "\n[unless_noted.ground]\nhold_down = \"demo-rod\"\njamb = \"demo-bolt\"\nanchor = { use = \"demo-bolt\", "
        "max = 1200 }\n\n[unless_noted.first]\nhold_down = \"demo-through\"\njamb = \"demo-screw\"\nanchor = { use = "
        "\"demo-screw\", max = 1200 }\n\n[mark]\nB = { brace = \"demo-sheet\" }\n\n"
        "[wall.ground]\n";
    text += garage
                ? "A = \"B 2000 | 2000 | B 2000\"\nB = \"B 2000 | 1000 | B 2000\"\nC = \"B 2000 | 2000 | B 2000\"\nD "
                  "= \"B 2000 | 3000 | B 2000 | 4000 | B 2000\"\n" +
                      joint
                : "A = \"B 2000 | 8000 | B 2000\"\nD = \"B 2000 | 4000 | B 2000\"\n";
    return text + "E = \"B 2000 | 8000 | B 2000\"\nF = \"B 2000 | 4000 | B 2000\"\n" + more_ground +
           "\n[wall.first]\n" + first_a +
           "D = \"B 2000 | 4000 | B 2000\"\nE = \"B 2000 | 8000 | B 2000\"\nF = { same_as = \"D\" }\n" + more_first;
  }
  House house() const { return read_blocks(job(), plenty(basis)); }
};

}  // namespace belay::test
