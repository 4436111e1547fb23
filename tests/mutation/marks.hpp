#pragma once
// Mutants beside the code they change. Of a place that reads `a + b` the instrumented copy makes
// `a + Plus<17>() + b`, which is a - b while mutant 17 is asked for and a + b otherwise; so all of them are built at
// once. FORETONE_MUTANT=17 in the environment asks for one, FORETONE_REACHED=FILE for a list of those that a run came
// by.

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <type_traits>

namespace foretone_mutation {

inline constexpr int most = 4096;
inline unsigned char reached[most] = {};
/// Asked for when first needed: tables that are filled before main have marks too.
inline int active() {
    static const int number = std::getenv("FORETONE_MUTANT") ? std::atoi(std::getenv("FORETONE_MUTANT")) : 0;
    return number;
}

struct Teller {
    ~Teller() {
        const char* name = std::getenv("FORETONE_REACHED");
        std::FILE* out = name ? std::fopen(name, "w") : nullptr;
        if (!out) return;
        for (int n = 0; n < most; ++n)
            if (reached[n]) std::fprintf(out, "%d\n", n);
        std::fclose(out);
    }
};
inline Teller teller;

inline bool on(int n) {
    reached[n] = 1;
    return active() == n;
}

template <class Mark, class A>
struct Held {
    const A& a;
};

// MARK stands between two operands of `sign`; while its mutant is on, `otherwise` is taken.
#define FORETONE_MARK(Mark, sign, otherwise)                       \
    template <int N>                                               \
    struct Mark {};                                                \
    template <class A, int N>                                      \
    Held<Mark<N>, A> operator sign(const A& a, Mark<N>) {          \
        return {a};                                                \
    }                                                              \
    template <class A, class B, int N>                             \
    auto operator sign(const Held<Mark<N>, A>& held, const B& b) { \
        using Result = std::decay_t<decltype(held.a sign b)>;      \
        return on(N) ? Result(otherwise) : Result(held.a sign b);  \
    }

FORETONE_MARK(Plus, +, held.a - b)
FORETONE_MARK(Minus, -, held.a + b)
FORETONE_MARK(Times, *, held.a / b)
FORETONE_MARK(Over, /, held.a* b)
FORETONE_MARK(Less, <, held.a <= b)
FORETONE_MARK(Short, <, held.a + 1 < b)  // of a loop: its last turn is left out
FORETONE_MARK(Most, <=, held.a < b)
FORETONE_MARK(More, >, held.a >= b)
FORETONE_MARK(Least, >=, held.a > b)
FORETONE_MARK(Same, ==, held.a != b)
FORETONE_MARK(Other, !=, held.a == b)
#undef FORETONE_MARK

template <int N, class A>
A larger(const A& a, const A& b) {
    return on(N) ? std::min(a, b) : std::max(a, b);
}
template <int N, class A>
A smaller(const A& a, const A& b) {
    return on(N) ? std::max(a, b) : std::min(a, b);
}
template <int N, class A>
A within(const A& a, const A& low, const A& high) {
    return on(N) ? a : std::clamp(a, low, high);
}
template <int N, class A>
A size(A a) {
    return on(N) ? a : static_cast<A>(std::abs(a));
}

}  // namespace foretone_mutation
