/// The published verdict on the solvers is what the program finds.

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <thread>

#include "foretone/optics/angular.hpp"
#include "foretone/report/verdict.hpp"
#include "foretone/report/json.hpp"
#include "foretone/job/verdict.hpp"
#include "support/demo.hpp"
#include "support/sanitized.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string published() {
    std::ifstream in(VERIFY_FILE);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

// The tables judged at the default streams, once for all that ask.
const auto& usual_tables() {
    static const auto tables = job::check_tables(optics::AngularOptions{}.streams);
    return tables;
}

}  // namespace

TEST_CASE("the angular solver meets every table to 2e-4 at its default streams, and to 2e-5 at 32") {
    const auto within = [](const auto& tables, double bound) {
        for (const auto& t : tables) {
            if (t.solver != "angular") continue;
            INFO(t.table << ", " << t.quantity << ", bound " << bound << ": worst " << t.worst << " at "
                         << t.worst_row);
            CHECK(t.rows >= 30);
            CHECK(t.worst <= bound);
        }
    };
    within(usual_tables(), 2e-4);
    // Under the sanitizers the same code with larger matrices takes minutes, for nothing new.
    if (!sanitized()) within(job::check_tables(32), 2e-5);
}

TEST_CASE("the error table in out/tour/verify.md is the one that verify prints") {
    job::Verdict verdict;
    verdict.streams = optics::AngularOptions{}.streams;
    verdict.tables = usual_tables();
    const std::string found = report::verdict_markdown(verdict);
    const std::string table = found.substr(0, found.find("\n\n") + 1);
    CHECK(published().find(table) != std::string::npos);
}

TEST_CASE("a verdict that was stopped says what was not judged, and shows no table of it") {
    job::Verdict verdict;
    verdict.tables = usual_tables();
    verdict.left_out = {"published boards", "learning from step boards"};
    const std::string page = report::verdict_markdown(verdict);
    CHECK(page.starts_with("Stopped by hand. Not judged: published boards and learning from step boards.\n\n| table"));
    CHECK(page.find("woods ×") == std::string::npos);
    CHECK(page.find("Boards whose difference") == std::string::npos);
    CHECK(report::verdict_json(verdict).find("\"stopped_before\": [") != std::string::npos);
    verdict.left_out.clear();
    CHECK(report::verdict_json(verdict).find("stopped_before") == std::string::npos);
}

TEST_CASE("the solvers agree over a sample of the library, whatever the number of threads") {
    // Every 61st of the boards (under the sanitizers every 305th); the whole set is what `foretone verify` judges and
    // that page prints.
    const int stride = sanitized() ? 305 : 61;
    const auto one = job::compare_solvers(library(), 16, stride, 1, {});
    CHECK(one.finishes >= (sanitized() ? 40u : 200u));
    CHECK(one.median <= 0.3);
    CHECK(one.p95 <= 1.0);
    const auto two = job::compare_solvers(library(), 16, stride, 2, {});
    CHECK(two.median == one.median);
    CHECK(two.worst == one.worst);
    CHECK(two.worst_board == one.worst_board);
}
