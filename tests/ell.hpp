// A house in the shape of an L, as a job's text: a gable of 25 degrees over 12 m by 8 m, ridge across, and before its
// front, flush with its right, a garage of 6 m by 5 m under a gable of its own, its floor 100 mm lower. Invented.
#pragma once
#include <string>

namespace belay::test {

inline const std::string ell_job = R"([job]
title = "L house, invented"
drawing = "mm"
importance = 2
drawn = "sheet 1"
fixings = "demo-test.toml"
#

[site]
class = "N3"
given_by = "a test"

[block.main]
floor_level = 300
size = [12000, 8000]
walls = { front = "A", right = "D", back = "E", left = "F" }
height = 2700
trusses = { mark = "T1", max = 900 }
roof = { shape = "gable", ridge = "across", pitch = "25 deg", eaves = 450, verge = 300, weight = "0.40 kPa" }

[block.garage]
size = [6000, 5000]
place = { against = "main front", flush = "right" }
walls = { front = "C", right = "D", left = "B" }
height = 2700
slab = -100
trusses = [{ mark = "T2", max = 1000 }, { mark = "V1", valley = 900 }]
roof = { shape = "gable", ridge = "up", pitch = "25 deg", eaves = 450, verge = 300, weight = "0.40 kPa" }

[slab]
concrete = "25 MPa"

[unless_noted]
S = { brace = "demo-sheet", hold_down = "demo-rod" }
jamb = "demo-bolt"
anchor = { use = "demo-bolt", max = 1200 }
truss = "demo-cleat"
onto = "demo-cleat"
plate = 90
hold_down_in = 100
top_tie = "demo-tie"
stud_tie = "demo-tie"
plate_fixing = "demo-plate"

[wall]
A = "S 1200 | 3600 | S 1200"
B = "S 1200 | 2600 | S 1200"
C = "S 1200 | 3600 | S 1200"
D = "S 1200 | 2600 | S 1200 | S 1200 | 5600 | S 1200"
E = "S 1200 | 9600 | S 1200"
F = "S 1200 | 5600 | S 1200"
G = { in = "main", from_front = 0, between = [6000, 12000], run = "S 1200 | 3600 | S 1200" }
)";

}  // namespace belay::test
