// A house in the shape of an L for figures worked out by hand. Invented.
#pragma once
#include "grid_blocks.hpp"
#include <string>

namespace belay::test {

// A main block of 12 m by 8 m, its ridge across; before the right half of its front a wing of 6 m by 5 m, its ridge up.
// Gables of 25 degrees, no overhangs, a truss every metre; walls of 2.7 m. The wing's ridge runs level with the main
// roof's slope at 3 m in: valleys from (6, 0) and (12, 0) to (9, 3).
//
//   F |------ E ------| D        y = 8     Lines across: E, A+G, C. Lines up: F, B, D.
//     |               |
//     |-- A --|-- G --|          y = 0
//             B       | D
//             |-- C --|          y = -5
//             x = 6   x = 12
struct Ell {
  std::string site = "class = \"N3\"\ngiven_by = \"a test\"", basis = "design";
  std::string slab = "0", a = "B 2 m | 2 m | B 2 m", b = "B 2 m | 1 m | B 2 m", c = "B 2 m | 2 m | B 2 m",
              g = "B 2 m | 2 m | B 2 m", d = "B 2 m | 3 m | B 2 m | 4 m | B 2 m";
  bool joint_wall = true;
  std::string onto = "\"demo-cleat\"", more_walls = "", wall_weight = "", valley = "1000",
              ceiling = "";  // ceiling: "flexible"...; both
  std::string marks = "B = { brace = \"demo-sheet\", hold_down = \"demo-rod\" }\n";

  std::string job() const {
    const auto roof = [](const char* ridge) {
      return fmt::format(
          "roof = {{ shape = \"gable\", ridge = \"{}\", pitch = \"25 deg\", eaves = 0, verge = 0, weight = \"0.40 "
          "kPa\" }}\n",
          ridge);
    };
    std::string text =
        "[job]\ntitle = \"L house, invented\"\ndrawing = \"mm\"\nimportance = 2\ndrawn = \"none\"\nfixings = "
        "\"demo-test.toml\"\n\n[site]\n" +
        site +
        "\n\n[block.main]\nfloor_level = 300\nsize = [12000, 8000]\nwalls = { front = \"A\", right = \"D\", back = "
        "\"E\", left = \"F\" }\nheight = 2700\n" +
        roof("across") + (wall_weight.empty() ? "" : "wall_weight = " + wall_weight + "\n") +
        (ceiling.empty() ? "" : "ceiling = \"" + ceiling + "\"\n") +
        "trusses = { mark = \"T1\", max = 1000 }\n\n[block.garage]\nsize = [6000, 5000]\nplace = { against = \"main "
        "front\", flush = \"right\" }\nwalls = { front = \"C\", right = \"D\", left = \"B\" }\nheight = 2700\nslab = " +
        slab + "\n" + roof("up") + "trusses = [ { mark = \"T2\", max = 1000 }, { mark = \"V1\", valley = " + valley +
        " } ]\n\n[slab]\nconcrete = \"25 MPa\"\n\n[unless_noted]\n";
    Draft noted;
    noted.noted("onto", onto).noted("hold_down_in", "\"100 mm\"");
    for (const auto& [k, v] : noted.unless_noted) text += fmt::format("{} = {}\n", k, v);
    text += "\n[mark]\n" + marks + "\n[wall]\n";
    for (const auto& [name, run] : {std::pair("A", a), {"B", b}, {"C", c}, {"D", d}})
      text += fmt::format("{} = \"{}\"\n", name, run);
    text += "E = \"B 2 m | 8 m | B 2 m\"\nF = \"B 2 m | 1 m | B 2 m | 1 m | B 2 m\"\n";
    if (joint_wall)
      text += fmt::format("G = {{ in = \"main\", from_front = 0, between = [6000, 12000], run = \"{}\" }}\n", g);
    return text + more_walls;
  }
  House house() const { return read_blocks(job(), plenty(basis)); }
};

}  // namespace belay::test
