// What a job says of the wind, settled: which method, which of its keys, and that none of them is foreign to it.
#pragma once
#include "belay/job.hpp"
#include "job/raw.hpp"
#include "job/settle.hpp"
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

// site: by which the house is judged; none where that could not be settled, or where several stand and none is chosen.
// basis, method: of that site; no basis where all of several are asked for.
struct SiteSettled {
  std::optional<SiteAsk> site;
  std::vector<NamedSite> sites;
  std::optional<Basis> basis;
  std::string method;
  std::vector<Slip> slips;
  std::vector<std::string> remarks;
};
SiteSettled settle_site(const raw::Site&, const std::vector<std::string>& unread,
                        const std::function<std::string(std::string_view path)>& place, int importance,
                        const Sites& known);

}  // namespace belay
