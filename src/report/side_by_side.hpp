// `belay check --method all`: what each link has to hold under each method that the job states a site for, side by
// side.
#pragma once
#include "belay/result.hpp"
#include "report/page.hpp"
#include <string>
#include <vector>

namespace belay {

// One row a link, one column a method. all: every link; else the worst of each kind on each wall.
// Precondition of all here: at least one method.
std::string side_by_side(const std::vector<UnderMethod>&, bool all, Look);

// The same link under each method, in the order of the first that has it; null where a method has no such link.
std::vector<std::vector<const Link*>> rows_of(const std::vector<UnderMethod>&);
// The part that decides the link of that column, by its use; where it has none, that which decides in another column,
// else the one with most to hold. Null: no such link, or it has no part.
const LinkPart* deciding_part(const std::vector<const Link*>& row, std::size_t column);
// Why the columns differ, in sentences with their numbers.
std::vector<std::string> why_they_differ(const std::vector<UnderMethod>&);
// The worst over the methods; 0 only when every one of them passes.
int worst_exit(const std::vector<UnderMethod>&);

}  // namespace belay
