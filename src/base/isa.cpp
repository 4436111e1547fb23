#include "foretone/base/isa.hpp"

namespace foretone::base {
namespace {

Isa look() {
#if defined(__GNUC__) && defined(__x86_64__)
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq")) return Isa::avx512;
    if (__builtin_cpu_supports("avx2")) return Isa::avx2;
#endif
    return Isa::baseline;
}

}  // namespace

Isa widest_isa() {
    static const Isa widest = look();
    return widest;
}

}  // namespace foretone::base
