/// Files as spreadsheets, transfers and people damage them. Each is either read, and what was mended is told, or
/// refused with a message that says where and what would be right. The files are made up;
/// tests/data/damaged/expected.csv lists the message due for each.

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "foretone/measure/read.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::measure;
using namespace foretone::test;
namespace fs = std::filesystem;

namespace {

const fs::path folder = fs::path(FORETONE_TEST_DATA) / "damaged";

std::string bytes_of(const fs::path& name) {
    std::ifstream in(folder / name, std::ios::binary);  // an absolute name stays as it is
    REQUIRE(in.good());
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

std::string line_of(const std::string& id, std::size_t line, std::size_t column, const std::string& text) {
    return std::to_string(line) + ":" + std::to_string(column) + ": " + text + " [" + id + "]";
}

}  // namespace

TEST_CASE("every damaged file gives the message due to it") {
    std::set<std::string> files;
    for (const auto& row : table("damaged/expected.csv")) {
        INFO(row.text("file"));
        files.insert(row.text("file"));
        const std::string due = line_of(row.text("id"), static_cast<std::size_t>(row.number("line")),
                                        static_cast<std::size_t>(row.number("column")), row.text("text"));
        std::set<std::string> told;
        std::size_t readings = 0;
        std::string outcome = "read";
        try {
            const auto r = read(bytes_of(row.text("file")));
            readings = r.readings.size();
            for (const auto& n : r.notes) told.insert(line_of(n.id, n.line, n.column, n.text));
        } catch (const Refused& e) {
            outcome = "refused";
            told.insert(line_of(e.id, e.line, e.column, e.what()));
        }
        CHECK(outcome == row.text("outcome"));
        CHECK(readings == static_cast<std::size_t>(row.number("readings")));
        for (const auto& t : told) UNSCOPED_INFO("told: " << t);
        UNSCOPED_INFO("due:  " << due);
        CHECK(told.count(due) == 1);
    }
    CHECK(files.size() >= 30);
}

TEST_CASE("every damaged file is listed with its message") {
    std::set<std::string> listed, there;
    for (const auto& row : table("damaged/expected.csv")) listed.insert(row.text("file"));
    for (const auto& f : fs::directory_iterator(folder)) there.insert(f.path().filename().string());
    there.erase("expected.csv");
    CHECK(listed == there);
}

// What a fuzzer found, and what it starts from.
TEST_CASE("the fuzz targets' kept texts are read or refused") {
    std::size_t texts = 0;
    for (const char* reader : {"cgats", "csv", "lab_list", "cxf"})
        for (const auto& f : fs::directory_iterator(fs::path(FORETONE_TEST_DATA) / ".." / "fuzz" / "corpus" / reader)) {
            ++texts;
            try {
                const auto got = read(bytes_of(f.path()));
                CHECK_FALSE(got.readings.empty());
            } catch (const Refused& e) {
                CHECK_FALSE(e.id.empty());
            }
        }
    CHECK(texts > 10);
}

// What mending must not do is change a value.
TEST_CASE("mended files hold the values of the sound one") {
    // In these, the first sample is 0.15 + 0.001 (λ − 400), the second 0.04 less.
    for (const char* name : {"counts-wrong.txt", "byte-order-mark.csv", "line-ends-crlf.txt", "line-ends-cr.csv",
                             "line-ends-mixed.csv", "separators-trailing.csv", "decimal-comma.csv", "windows-1252.csv",
                             "wavelengths-falling.csv", "heading-missing.csv", "spectral-norm-lost.txt"}) {
        INFO(name);
        const auto r = read(bytes_of(name));
        REQUIRE(r.readings.size() == 2);
        double worst = 0;
        for (std::size_t s = 0; s < 2; ++s) {
            const auto& curve = *r.readings[s].reflectance;
            REQUIRE(curve.value.size() == 16);
            for (std::size_t i = 0; i < 16; ++i)
                worst = worst_of(worst, std::abs(curve.value[i] - (0.15 + 0.001 * (curve.wavelength_nm[i] - 400) -
                                                                   0.04 * static_cast<double>(s))));
        }
        CHECK_THAT(worst, Near(0, closed_form));
    }
    for (const char* name : {"quotes-doubled.txt", "lines-quoted.txt", "cgats-as-csv.txt", "names-unquoted.txt",
                             "no-break-spaces.txt", "quotes-curly.txt"}) {
        INFO(name);
        const auto r = read(bytes_of(name));
        REQUIRE(r.readings.size() == 2);
        CHECK(r.readings[0].name == "bare maple");
        CHECK(r.readings[0].lab == color::Lab{81.5, 3.2, 18.4});
        CHECK(r.readings[1].name == "one coat");
        CHECK(r.readings[1].lab == color::Lab{77, 4.4, 24.9});
        CHECK(r.readings[0].light == "D65");
    }
}
