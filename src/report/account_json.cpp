#include "foretone/report/account_json.hpp"

#include <nlohmann/json.hpp>

namespace foretone::report {
namespace {
using Json = nlohmann::ordered_json;

Json fate_json(const schedule::Fate& f) {
    return {{"laid", f.laid}, {"in", f.in}, {"on", f.on}, {"wiped", f.wiped}, {"gone", f.gone}};
}

}  // namespace

Json account_json(const schedule::Account& a) {
    return {{"liquid", fate_json(a.liquid)},
            {"binder", fate_json(a.binder)},
            {"dye", fate_json(a.dye)},
            {"pigment", fate_json(a.pigment)}};
}

}  // namespace foretone::report
