// Under the sanitizers everything is many times slower: the longest tests take fewer samples there, and all of them in
// the other build.
#pragma once

namespace belay::test {

#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool sanitized = true;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
inline constexpr bool sanitized = true;
#else
inline constexpr bool sanitized = false;
#endif
#else
inline constexpr bool sanitized = false;
#endif

}  // namespace belay::test
