// What is said of verandas: their links' places, what their posts stand on, who answers for them, cautions.
#pragma once
#include "belay/result.hpp"
#include "judge/judge.hpp"
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace belay {

// Of a link that is a veranda's own.
std::optional<std::size_t> veranda_of(const Forces&, const LinkSeed&);
const Chosen& veranda_fixing(const Forces&, const LinkSeed&);
Force veranda_pull(const Forces&, const LinkSeed&, Working* = nullptr);  // what lifts it
std::string veranda_symbol(const Forces&, const LinkSeed&);              // under which its working tells it
std::vector<Piece_of_demand> veranda_made_of(const Forces&, const LinkSeed&);
void place_of_veranda(const Forces&, const LinkSeed&, Where&);
// Of an anchor that is worked out, in its footing.
HeldByConcrete post_foot_holds(const Forces&, std::size_t post, const Anchor&, Working*);
std::vector<Condition> post_foot_conditions(const Forces&, std::size_t post, const Anchor&);
// The first of them of which the job does not say what lifts it.
const Veranda* unknown_of(const Forces&, const std::set<std::size_t>& verandas);
// "veranda": all of a veranda, and what it brings to the house.
const ByOthers* who_answers_for_verandas(const House&);
// The figures behind the factors of a case's combination, which is all that a veranda's forces take from the method.
Marks marks_of_combination(const Table& method, const LoadCase&);

std::vector<Caution> veranda_cautions(const House&);

}  // namespace belay
