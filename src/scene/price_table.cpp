#include "price_table.hpp"

namespace foretone::scene {

Prices read_prices(const Keys& keys) {
    Prices out;
    out.currency = keys.text("currency").value_or("");
    for (const auto& [key, node] : keys.table()) {
        if (key.str() == "currency") continue;
        const std::string id(key.str());
        const auto* table = node.as_table();
        if (!table) {
            keys.fault("value-type", keys.place_of(node),
                       id + " must be a pack: { ml = 946, price = 32.0 } or { g = 500, price = 22.0 }");
            continue;
        }
        const Keys pack(*table, keys.file(), "the pack of " + id, keys.problems());
        pack.only({"ml", "g", "price"});
        const auto price = pack.number("price", 0, 1e6);
        if (!pack.has("price")) pack.fault("key-missing", pack.here(), "the pack of " + id + " has no price");
        if (pack.has("ml") == pack.has("g")) {
            pack.fault("key-conflict", pack.here(), "the size of a pack is said in ml or in g, one of them");
            continue;
        }
        const auto ml = pack.number("ml", 1e-3, 1e6, "mL"), g = pack.number("g", 1e-3, 1e6, "g");
        out.packs[id] = {ml.value_or(0), g.value_or(0), price.value_or(0)};
    }
    return out;
}

}  // namespace foretone::scene
