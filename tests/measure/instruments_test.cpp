/// Files as instruments and their programs export them: each dialect read, or refused with the message due. The files
/// are made up after the forms that the formats' texts and common exports have; tests/data/instruments/expected.csv
/// lists what is due for each.

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "foretone/base/number.hpp"
#include "foretone/measure/read.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::measure;
using namespace foretone::test;
namespace fs = std::filesystem;

namespace {

const fs::path instruments = fs::path(FORETONE_TEST_DATA) / "instruments";

std::string instrument_text(const std::string& name) {
    std::ifstream in(instruments / name, std::ios::binary);
    REQUIRE(in.good());
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

// "lab 81.5 3.2 18.4 D65 10deg", "spectrum 31 0.15", "delta ...": the first reading in short.
std::string in_short(const Reading& r) {
    const auto n = [](double v) { return base::at_most(v, 3); };
    const auto triple = [&](const color::Lab& c) { return n(c.l) + " " + n(c.a) + " " + n(c.b); };
    std::string out;
    if (r.reflectance)
        out += "spectrum " + std::to_string(r.reflectance->value.size()) + " " + n(r.reflectance->value[0]);
    if (r.lab) out += (out.empty() ? "lab " : " lab ") + triple(*r.lab);
    if (r.delta) out += (out.empty() ? "delta " : " delta ") + triple(*r.delta);
    if (r.xyz && !r.lab) out += "xyz " + n(r.xyz->x) + " " + n(r.xyz->y) + " " + n(r.xyz->z);
    if (!r.light.empty()) out += " " + r.light + " " + r.observer;
    return out;
}

}  // namespace

TEST_CASE("every instrument's file is read, or refused with the message due") {
    std::set<std::string> listed;
    for (const auto& row : table("instruments/expected.csv")) {
        const auto file = row.text("file");
        INFO(file);
        listed.insert(file);
        std::string outcome = "read", first, told;
        std::size_t readings = 0;
        std::set<std::string> ids;
        try {
            const auto r = read(instrument_text(file));
            readings = r.readings.size();
            first = in_short(r.readings.front());
            for (const auto& note : r.notes) ids.insert(note.id);
        } catch (const Refused& e) {
            outcome = "refused";
            ids.insert(e.id);
            told = e.what();
        }
        CHECK(outcome == row.text("outcome"));
        CHECK(readings == static_cast<std::size_t>(row.number("readings")));
        CHECK(first == row.text("first"));
        if (!row.text("id").empty()) CHECK(ids.count(row.text("id")) == 1);
        CHECK(told.find(row.text("says")) != std::string::npos);
    }
    CHECK(listed.size() >= 40);
    std::set<std::string> there;
    for (const auto& f : fs::directory_iterator(instruments)) there.insert(f.path().filename().string());
    there.erase("expected.csv");
    CHECK(listed == there);
}

TEST_CASE("a CxF3 file cut off anywhere, or with a byte changed, is read or refused, never anything else") {
    const auto whole = instrument_text("cxf-both.cxf");
    int refused = 0, kept = 0;
    const auto tried = [&](const std::string& text) {
        try {
            read(text);
            ++kept;
        } catch (const Refused& e) {
            CHECK_FALSE(e.id.empty());
            ++refused;
        }
    };
    for (std::size_t at = 0; at < whole.size(); at += 7) tried(whole.substr(0, at));
    for (std::size_t at = 0; at < whole.size(); at += 11) {
        auto changed = whole;
        changed[at] = changed[at] == '<' ? '>' : '<';
        tried(changed);
    }
    CHECK(refused > 200);
    CHECK(kept > 0);  // a byte between two objects says nothing
}

TEST_CASE("a CxF3 file that nests deeply or is too large is no trouble") {
    std::string deep = "<?xml version=\"1.0\"?>\n<CxF xmlns=\"http://colorexchangeformat.com/CxF3-core\">";
    for (int i = 0; i < 200000; ++i) deep += "<a>";
    CHECK_THROWS_AS(read(deep), Refused);
    for (int i = 0; i < 200000; ++i) deep += "</a>";
    CHECK_THROWS_AS(read(deep + "</CxF>"), Refused);
    Options small;
    small.most_bytes = 1000;
    try {
        read(instrument_text("cxf-both.cxf"), small);
        FAIL("read");
    } catch (const Refused& e) {
        CHECK(e.id == "text-too-large");
    }
}

TEST_CASE("what spotread prints gives each reading its name, spectrum and color") {
    const auto r = read(instrument_text("spotread-spectrum.txt"));
    REQUIRE(r.readings.size() == 1);
    CHECK(r.readings[0].name == "bare");
    REQUIRE(r.readings[0].reflectance);
    double worst = 0;
    for (std::size_t i = 0; i < 31; ++i)  // the file's own rule: 0.15 + 0.001 (λ − 400)
        worst = worst_of(worst, std::abs(r.readings[0].reflectance->value[i] - (0.15 + 0.01 * static_cast<double>(i))));
    CHECK_THAT(worst, Near(0, 1e-6));
    Options ten;
    ten.observer = "10deg";
    CHECK(read(instrument_text("spotread.txt"), ten).readings[0].observer == "10deg");
}
