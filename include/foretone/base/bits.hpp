#pragma once
/// The bits of one type as another of the same size: std::bit_cast, also where the library has none yet (the
/// browser's).

#include <type_traits>

namespace foretone::base {

template <class To, class From>
constexpr To bit_cast(const From& from) noexcept {
    static_assert(sizeof(To) == sizeof(From) && std::is_trivially_copyable_v<To> && std::is_trivially_copyable_v<From>);
    return __builtin_bit_cast(To, from);
}

}  // namespace foretone::base
