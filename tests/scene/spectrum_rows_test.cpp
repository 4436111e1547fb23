/// Tables of numbers and reflectances at the ends of what is taken.

#include "foretone/scene/spectrum_file.hpp"
#include "foretone/scene/text_file.hpp"
#include "scene/faults.hpp"
#include "support/folder.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string spectrum_head = "wavelength_nm,reflectance\n";
std::string steps_of(double first, double last, double step, double value = 0.5) {
    std::string text = spectrum_head;
    for (double nm = first; nm <= last + 1e-9; nm += step)
        text += base::shortest(nm) + "," + base::shortest(value) + "\n";
    return text;
}
std::vector<scene::Problem> spectrum_faults(const std::string& text) {
    return faults_of([&] { scene::read_reflectance(text, "s.csv"); });
}
scene::Problem one_fault(const std::string& text) {
    const auto found = spectrum_faults(text);
    REQUIRE(found.size() == 1);
    CHECK(found[0].place.file == "s.csv");
    return found[0];
}

}  // namespace

TEST_CASE("a reflectance needs 400 to 700 nm in steps of 20 nm, and no more") {
    CHECK(spectrum_faults(steps_of(400, 700, 20)).empty());
    CHECK(spectrum_faults(steps_of(380, 780, 1)).empty());
    CHECK(one_fault(steps_of(400.5, 700, 10)).id == "spectrum-range-nm");
    CHECK(one_fault(steps_of(400, 690, 10)).id == "spectrum-range-nm");
    CHECK(one_fault(steps_of(400, 700, 20.5)).id == "spectrum-coarse");
    CHECK(one_fault(steps_of(410, 690, 10)).text.find("from 410 to 690 nm") != std::string::npos);
}

TEST_CASE("outside 400 to 700 nm steps may be as wide as they are") {
    std::string text = spectrum_head + "300,0.2\n";
    for (int nm = 400; nm <= 700; nm += 20) text += std::to_string(nm) + ",0.5\n";
    CHECK(spectrum_faults(text + "900,0.6\n").empty());
}

TEST_CASE("reflectances from 0 to 1 are fractions, to 1.5 slips, beyond percent") {
    CHECK(spectrum_faults(steps_of(400, 700, 20, 0)).empty());
    CHECK(spectrum_faults(steps_of(400, 700, 20, 1)).empty());
    CHECK(one_fault(steps_of(400, 700, 20, 1.5)).id == "spectrum-range");
    CHECK(one_fault(steps_of(400, 700, 20, 1.6)).id == "spectrum-percent");
    CHECK(one_fault(steps_of(400, 700, 20, -0.001)).id == "spectrum-range");
    CHECK(one_fault(steps_of(400, 700, 20, 55)).text.find("55 % is 0.55") != std::string::npos);
}

TEST_CASE("cells are told by their column, blanks before them not counted in the number") {
    const auto rows = steps_of(400, 420, 20);
    CHECK(one_fault(rows + "  440 , x1 \n").place.column == 9);
    CHECK(one_fault(rows + "44O,0.5\n").place.column == 1);
    CHECK(one_fault(rows + "440,0.5%\n").text.find("'0.5%' is not a number") != std::string::npos);
    CHECK(one_fault(rows + "440\n").text.find("has 1 values; 2 are due") != std::string::npos);
    CHECK(one_fault(rows + "430,0.5\n415,0.5\n").text.find("415 does not rise above the 430") != std::string::npos);
    CHECK(one_fault(rows + "440,0.5\n\n450,y\n").place.line == 6);  // empty lines count
}

TEST_CASE("a table keeps its comments and the line of each row, and is as wide as it is asked for") {
    const auto t = scene::read_table("# made by hand\n#no blank\na,b,c\n1,2,3\n\n2,4,6", "t.csv", {"a", "b", "c"});
    CHECK(t.comments == std::vector<std::string>{"made by hand", "no blank"});
    CHECK(t.columns == std::vector<std::string>{"a", "b", "c"});
    REQUIRE(t.rows.size() == 2);
    CHECK(t.rows[1] == std::vector<double>{2, 4, 6});
    CHECK(t.lines == std::vector<std::size_t>{4, 6});
    const auto swapped = faults_of([] { scene::read_table("b,a\n1,2\n2,3\n", "t.csv", {"a", "b"}); });
    holds_fault(swapped, "spectrum-header", 1, 1, "the header reads 'b,a'; it must be 'a,b'");
}

TEST_CASE("a text file is a regular file of text, its size told before it is read") {
    const Folder f("text-file");
    const auto id_of = [](const std::filesystem::path& p) {
        const auto found = faults_of([&] { scene::read_text(p); });
        return found.empty() ? "none" : found[0].id;
    };
    CHECK(id_of("/dev/null") == "file-unreadable");
    const auto most = f.write("most.txt", std::string(scene::largest_text_file, 'x'));
    CHECK(id_of(most) == "none");
    const auto over = f.write("over.txt", std::string(scene::largest_text_file + 1, 'x'));
    CHECK(id_of(over) == "file-too-large");
    const auto found = faults_of([&] { scene::read_bytes(most, 100); });
    REQUIRE(found.size() == 1);
    CHECK(found[0].text.find("1000000 bytes; the largest read is 100") != std::string::npos);
    CHECK(scene::read_text(f.write("empty.txt", "")).empty());
    CHECK(scene::read_bytes(f.write("zero", std::string("a\0b", 3)), 100).size() == 3);
    CHECK(scene::read_text(f.write("crlf.txt", "a\r\nb")) == "a\r\nb");
    CHECK(scene::read_text(f.write("mid.txt", "a\xEF\xBB\xBF")) == "a\xEF\xBB\xBF");  // a mark only at the start
}
