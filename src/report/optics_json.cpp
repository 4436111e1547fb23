#include "foretone/report/optics_json.hpp"

#include "foretone/report/json.hpp"
#include "foretone/report/tool_json.hpp"
#include "json_values.hpp"

namespace foretone::report {

std::string fluxes_json(const std::string& solver, const scene::StackFile& file, const optics::Fluxes& fluxes) {
    return fluxes_json(solver, file, fluxes, {});
}

std::string fluxes_json(const std::string& solver, const scene::StackFile& file, const optics::Fluxes& fluxes,
                        const std::vector<scene::Problem>& warnings) {
    Json j;
    j["tool"] = tool_json();
    j["solver"] = solver;
    j["wavelengths_nm"] = file.wavelengths_nm;
    j["reflectance"] = fluxes.reflectance;
    j["surface_reflectance"] = fluxes.surface;
    j["transmittance"] = fluxes.transmittance;
    j["warnings"] = warnings_json(warnings);
    return j.dump(2) + "\n";
}

}  // namespace foretone::report
