#include "findings.hpp"

namespace foretone::cli {

std::string findings_text(const std::vector<schedule::Finding>& findings) {
    std::string out;
    for (const auto& f : findings) {
        out += std::string(schedule::word(f.severity)) + ": step " + std::to_string(f.step + 1) + ": " + f.what + " [" +
               f.id + "]\n";
        out += "  why: " + f.why + " (" + std::string(material::word(f.sure)) + ")\n";
        for (std::size_t i = 0; i < f.mends.size(); ++i)
            out += (i == 0 ? "  mend: " : "     or: ") + f.mends[i].text + "\n";
    }
    return out;
}

std::string findings_text(const std::string& name, const std::vector<schedule::Finding>& findings) {
    return findings.empty() ? "" : "\n" + name + "\n" + findings_text(findings);
}

std::string marked(const std::string& name, const std::vector<schedule::Finding>& findings) {
    return schedule::fails(findings) ? name + " (WILL NOT HOLD)" : name;
}

}  // namespace foretone::cli
