#include <algorithm>
#include <catch2/catch.hpp>

#include "foretone/schedule/order_rules.hpp"
#include "support/table.hpp"
#include "support/whole_library.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

schedule::Step put_on(const std::string& id, const std::string& method) {
    schedule::Step s;
    s.mix = {{id, schedule::Amount::parts, 1}};
    for (std::size_t i = 0; i < material::method_words.size(); ++i)
        if (material::method_words[i] == method) s.method = static_cast<material::Method>(i);
    return s;
}

schedule::Finish pair_of(const Row& row) {
    schedule::Finish f{"pair", {put_on(row.text("under"), ""), put_on(row.text("over"), row.text("method"))}};
    if (row.has("days")) f.steps[1].after_days = row.number("days");
    f.steps[1].scuff = row.has("scuff");
    return f;
}

std::string findings_told(const std::vector<schedule::Finding>& findings) {
    std::vector<std::string> words;
    for (const auto& f : findings)
        words.push_back(f.id + ":" + std::string(schedule::word(f.severity)) + ":" +
                        std::string(material::word(f.sure)));
    std::sort(words.begin(), words.end());
    std::string out;
    for (const auto& w : words) out += (out.empty() ? "" : "|") + w;
    return out.empty() ? "none" : out;
}

std::string sorted_words(const std::string& text) {
    std::vector<std::string> words(1);
    for (const char c : text) {
        if (c == '|')
            words.emplace_back();
        else
            words.back() += c;
    }
    std::sort(words.begin(), words.end());
    std::string out;
    for (const auto& w : words) out += (out.empty() ? "" : "|") + w;
    return out;
}

}  // namespace

// order_pairs.csv: the rules of the trade (common practice; where the trade is of two minds, `conflicting`) worked out
// by hand for each pair.
TEST_CASE("at least sixty pairs of materials are judged as the trade judges them, each with its mark") {
    const auto& materials = whole_library();
    const auto rows = table("order_pairs.csv");
    CHECK(rows.size() >= 60);
    int conflicts = 0;
    for (const auto& row : rows) {
        const auto findings = schedule::check_order(pair_of(row), materials);
        INFO(row.text("under") << " under " << row.text("over") << " by " << row.text("method") << ", days "
                               << row.text("days"));
        CHECK(findings_told(findings) == sorted_words(row.text("findings")));
        for (const auto& f : findings) {
            CHECK_FALSE((f.what.empty() || f.why.empty()));
            CHECK_FALSE((f.mends.empty() && f.severity != schedule::Severity::note));
            conflicts += f.sure == material::Sure::conflicting;
        }
    }
    CHECK(conflicts >= 8);
}

TEST_CASE("every mend of every finding takes the finding away or makes it milder, and makes no failure") {
    const auto& materials = whole_library();
    int mends = 0;
    for (const auto& row : table("order_pairs.csv")) {
        const auto finish = pair_of(row);
        for (const auto& f : schedule::check_order(finish, materials))
            for (const auto& m : f.mends) {
                INFO(row.text("under") << " under " << row.text("over") << ": " << f.id << ": " << m.text);
                const auto after = schedule::check_order(schedule::mended(finish, f, m, materials), materials);
                const bool still = std::any_of(after.begin(), after.end(),
                                               [&](const auto& a) { return a.id == f.id && a.severity >= f.severity; });
                CHECK_FALSE(still);
                ++mends;
            }
    }
    CHECK(mends >= 60);
}

TEST_CASE("a disputed fact never makes a failure") {
    const auto& materials = whole_library();
    for (const auto& row : table("order_pairs.csv"))
        for (const auto& f : schedule::check_order(pair_of(row), materials))
            if (f.sure == material::Sure::conflicting) CHECK(f.severity != schedule::Severity::failure);
}

TEST_CASE("shellac is named for what stands wet, and what stands wet is not") {
    const auto& materials = whole_library();
    schedule::Finish f{"counter", {put_on("orange-shellac", "brush"), put_on("oil-varnish", "brush")}, true};
    CHECK(findings_told(schedule::check_order(f, materials)) == "tie-wet-place:warning:practice");
    f.steps.erase(f.steps.begin());
    CHECK(schedule::check_order(f, materials).empty());
}

TEST_CASE("a tinted shellac brushed over itself bleeds, sprayed hardly, untinted not") {
    const auto& materials = whole_library();
    auto step = put_on("orange-shellac", "brush");
    step.coats = 2;
    CHECK(schedule::check_order({"plain", {step}}, materials).empty());
    step.mix.push_back({"solvent-red-24", schedule::Amount::g_per_l, 2});
    CHECK(findings_told(schedule::check_order({"tinted", {step}}, materials)) == "bleeds:warning:practice");
    step.method = material::Method::spray;
    CHECK(findings_told(schedule::check_order({"sprayed", {step}}, materials)) == "bleeds:note:practice");
}

TEST_CASE("a material that states no order is named once, and a mend that needs what is not there says it in words") {
    auto materials = whole_library();
    materials["oil-varnish"].order = {};
    const schedule::Finish f{"x", {put_on("oil-varnish", "brush"), put_on("oil-varnish", "brush")}};
    CHECK(findings_told(schedule::check_order(f, materials)) == "order-unknown:note:stated");
    for (auto& [id, m] : materials) m.order.ties.reset();
    const auto bleeds =
        schedule::check_order({"y", {put_on("honey-dye", "wipe"), put_on("waterborne-acrylic", "brush")}}, materials);
    REQUIRE(bleeds.size() == 1);
    CHECK(bleeds[0].mends.back().text.find("a dewaxed shellac") != std::string::npos);
    CHECK_THROWS_AS(schedule::mended({"y", {put_on("honey-dye", "wipe"), put_on("waterborne-acrylic", "brush")}},
                                     bleeds[0], bleeds[0].mends.back(), materials),
                    std::invalid_argument);
}
