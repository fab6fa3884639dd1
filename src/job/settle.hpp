// From what was written to the house it means: runs added up, defaults taken (and where from), marks and fixings found.
// Knows no file: a problem names a path, and the caller knows where that stands.
#pragma once
#include "belay/fixings.hpp"
#include "belay/job.hpp"
#include "job/raw.hpp"
#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

enum class Whose : unsigned char { job, fixings };  // in which of the two files
// What is wrong, and where: a path, and inside a text the bytes `at` and `size` (size 0: all of it). `on_key`: the key
// is wrong, not what it holds. Codes are slugs in words: "run-too-short".
struct Slip {
  Whose file;
  std::string path;
  bool on_key;
  std::size_t at, size;
  std::string code, message, help;
};
struct Settled {
  std::optional<House> house;
  std::vector<Slip> slips;
};

// What holds where a job says nothing: rules of thumb, common practice without a source.
struct Defaults {
  Length door_height;       // an opening this high stands on the floor: a door
  Length wide_door;         // a door this wide closes with something that the wind may break: its rating is asked for
  Length wide_door_height;  // so high, a wide opening is a door: a low roller door looks like a window in a list
  Length anchor_spacing;    // between plate anchors, at most
  Length hold_down_in;      // from a brace's end
};

// The words that a method knows; empty where it has no such thing.
struct SiteWords {
  std::vector<std::string> regions, terrains, zones;
};
// A published method in an edition that there is a table for. words: "AS/NZS 1170.2:2021". knows: asked for only by a
// job of that method, since its table must be read for it.
struct KnownMethod {
  std::string family, edition, words;
  std::function<SiteWords()> knows;
};
// What is known about sites from outside the job. choice: the name or the words of one of several sites, "all", or ""
// (the job's own choice).
struct Sites {
  std::vector<KnownMethod> methods;
  std::map<std::string, ClassTable> class_tables;  // by the name of the file, as the job writes it
  std::string choice;
};

// `fixings`: null when they could not be read (then nothing is looked up in them, and there is no house).
// `place`: "file:line" of a path of the job, for `Chosen::at` and the like. The house has neither file nor sha256 yet.
Settled settle(const raw::Job&, const Fixings*, const std::function<std::string(std::string_view path)>& place,
               const Defaults&, const Sites&);

// The wind classes of AS 4055.
std::span<const std::string_view> wind_classes();
// The kinds of link that somebody else may answer for, as `by_others` names them.
std::span<const std::string_view> kinds_by_others();

}  // namespace belay
