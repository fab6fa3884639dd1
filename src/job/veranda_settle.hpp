// Verandas and carports against a wall: from what was written to where their rafters and posts stand.
#pragma once
#include "belay/job.hpp"
#include "job/raw.hpp"
#include "job/settle.hpp"
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

// The fixing of one sort that the job picks at a path; where there is none of that name it says so itself.
using ChooseFixing = std::function<Chosen(const raw::Maybe<std::string>& name, const std::string& path)>;
// house: its walls are settled. walls_known: all blocks are placed and their outside walls named.
struct VerandasAsk {
  const raw::Job& job;
  const House& house;
  bool walls_known;
  const std::function<std::string(std::string_view path)>& place;
  ChooseFixing bracket, tie, anchor;
};
struct VerandasSettled {
  std::vector<Veranda> verandas;
  std::vector<Slip> slips;
  std::vector<std::string> remarks;
};
VerandasSettled settle_verandas(const VerandasAsk&);

}  // namespace belay
