#pragma once
/// Whether what is tested runs under the address sanitizer. Asked when a test runs and not when it is compiled: the
/// sanitizer build can take the tests as another build has compiled them (FORETONE_TEST_OBJECTS).

extern "C" void __asan_init() __attribute__((weak));

namespace foretone::test {

inline bool sanitized() { return &__asan_init != nullptr; }

}  // namespace foretone::test
