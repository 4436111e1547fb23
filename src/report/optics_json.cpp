#include <nlohmann/json.hpp>

#include "foretone/report/tool_json.hpp"
#include "foretone/report/json.hpp"
#include "foretone/scene/stack_file.hpp"

namespace foretone::report {

std::string fluxes_json(const std::string& solver, const scene::StackFile& file, const optics::Fluxes& fluxes) {
    nlohmann::ordered_json j;
    j["tool"] = tool_json();
    j["solver"] = solver;
    j["wavelengths_nm"] = file.wavelengths_nm;
    j["reflectance"] = fluxes.reflectance;
    j["surface_reflectance"] = fluxes.surface;
    j["transmittance"] = fluxes.transmittance;
    return j.dump(2) + "\n";
}

}  // namespace foretone::report
