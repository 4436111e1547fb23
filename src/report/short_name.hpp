#pragma once
// A wood's name in few words.

#include <string>

namespace foretone::report {

/// "Ash" of "Ash (Fraxinus excelsior)".
inline std::string short_name(const std::string& wood) {
    const auto at = wood.find(" (");
    return at == std::string::npos ? wood : wood.substr(0, at);
}

}  // namespace foretone::report
