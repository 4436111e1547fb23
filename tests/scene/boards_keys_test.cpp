/// Boards files: what is read into the question, and every fault at its place.

#include "foretone/scene/boards.hpp"
#include "scene/faults.hpp"
#include "support/folder.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string boards_head =
    "format = 1\nby = \"the bench\"\n[look]\nlight = \"D65\"\nobserver = \"10deg\"\n"
    "geometry = \"d/8-included\"\n[readings]\nfile = \"r.txt\"\n";
const std::string lab_readings =
    "light: D65\nobserver: 10deg\ngeometry: d/8-included\nbare\t80\t5\t18\none\t70\t9\t25\ntwo\t64\t10\t28\n";
const std::string two_coats = "[[board.step]]\nuse = \"orange-shellac\"\ncoats = 2\nmethod = \"spray\"\n";
std::string board_of(const std::string& readings) {
    return "[[board]]\nname = \"A\"\nwood = \"hard-maple\"\nreading = [ " + readings + " ]\n" + two_coats;
}

scene::BoardsFile boards_from(const std::string& text, const std::string& readings = lab_readings) {
    const Folder f("boards-keys");
    f.write("r.txt", readings);
    return scene::read_boards(f.write("b.toml", text), library());
}
void refuses_boards(const std::string& text, const std::string& id, const std::string& words, const std::string& says,
                    const std::string& readings = lab_readings) {
    INFO(text);
    const auto at = place_in(text, words);
    holds_fault(faults_of([&] { boards_from(text, readings); }), id, at.line, at.column, says);
}

}  // namespace

TEST_CASE("boards, steps and readings go into the question as they stand") {
    const auto b = boards_from("title = \"Plank\"\n" + boards_head +
                               "spread_de = 0.5\nplace_de = 1.1\nboard_de = 1.5\nhand = 0.2\n" +
                               board_of("{ name = \"bare\" }, { name = \"one\", step = 1, coat = 1, spread_de = 0.8 }, "
                                        "{ name = \"two\", step = 1 }"));
    CHECK(b.title == "Plank");
    CHECK(b.by == "the bench");
    CHECK(b.light == "D65");
    CHECK(b.observer == "10deg");
    const auto& q = b.question;
    CHECK(q.geometry == optics::Geometry::d8_included);
    CHECK(q.noise.place_de == 1.1);
    CHECK(q.noise.board_de == 1.5);
    CHECK(q.noise.hand == 0.2);
    REQUIRE(q.boards.size() == 1);
    CHECK(q.boards[0].name == "A");
    CHECK(q.boards[0].wood == "hard-maple");
    CHECK(q.boards[0].finish.steps.at(0).coats == 2);
    REQUIRE(q.readings.size() == 3);
    CHECK((q.readings[0].step == 0 && q.readings[0].coat == 0));
    CHECK((q.readings[1].step == 1 && q.readings[1].coat == 1));
    CHECK((q.readings[2].step == 1 && q.readings[2].coat == 2));  // unsaid: after the last coat
    CHECK(q.readings[0].spread_de == 0.5);
    CHECK(q.readings[1].spread_de == 0.8);
    CHECK(q.readings[1].lab->l == 70);
    CHECK(b.own.empty());
}

TEST_CASE("a reading may be a Lab value in the file itself, without a file of readings") {
    const std::string head = boards_head.substr(0, boards_head.find("[readings]"));
    const auto b =
        boards_from(head + board_of("{ lab = [81, 4, 17] }, { lab = [70, 9, 25], step = 1, name = \"oiled\" }"));
    REQUIRE(b.question.readings.size() == 2);
    CHECK(b.question.readings[0].lab->l == 81);
    CHECK(b.question.readings[0].name == "reading 1");
    CHECK(b.question.readings[1].name == "oiled");
    CHECK(b.question.readings[0].spread_de == 0.3);
}

TEST_CASE("a readings file whose columns say board, step and coat needs no list") {
    const std::string tagged =
        "# light: D65\n# observer: 10deg\n# geometry: d/8-included\nname,on,step,coat,L*,a*,b*\nb0,A,0,0,80,5,18\n"
        "b1,A,1,1,70,9,25\nb2,A,1,,64,10,28\nz,Z,0,0,50,5,5\n";
    const std::string board = "[[board]]\nname = \"A\"\nwood = \"hard-maple\"\n" + two_coats;
    const auto b = boards_from(boards_head + board, tagged);
    REQUIRE(b.question.readings.size() == 3);
    CHECK(b.question.readings[0].step == 0);
    CHECK((b.question.readings[1].step == 1 && b.question.readings[1].coat == 1));
    CHECK(b.question.readings[2].coat == 2);
    auto bad = tagged;
    bad.replace(bad.find("b1,A,1,1"), 8, "b1,A,1,x");
    const auto found = faults_of([&] { boards_from(boards_head + board, bad); });
    holds_fault(found, "reading-state", 6, 1, "coat of \"b1\" is 'x'; a whole number is due");
    CHECK(found[0].place.file.find("r.txt") != std::string::npos);
}

TEST_CASE("the look of the readings is whole and known") {
    const auto with_look = [](const std::string& look) {
        return "format = 1\nby = \"x\"\n" + look + board_of("{ lab = [80, 5, 18] }");
    };
    refuses_boards(with_look("[look]\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"), "key-missing", "[look]",
                   "needs the readings' light");
    refuses_boards(with_look("[look]\nlight = \"D65\"\ngeometry = \"45/0\"\n"), "key-missing", "[look]", "' observer");
    refuses_boards(with_look("[look]\nlight = \"D65\"\nobserver = \"2deg\"\n"), "key-missing", "[look]", "' geometry");
    refuses_boards(with_look("[look]\nlight = \"D66\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"), "value-choice",
                   "\"D66\"", "D65");
    refuses_boards(with_look("[look]\nlights = [\"D65\"]\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"), "key-unknown",
                   "lights", "Valid: light, observer or geometry.");
    refuses_boards("look = 5\n" + with_look(""), "value-type", "5\nformat", "a table is due");
}

TEST_CASE("a boards file says its format and whose boards they are") {
    const auto board = board_of("{ lab = [80, 5, 18] }");
    const std::string look = "[look]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n";
    refuses_boards("by = \"x\"\n" + look + board, "key-missing", "by", "format = 1 is missing");
    refuses_boards("format = 3\nby = \"x\"\n" + look + board, "value-range", "3\nby", "must be 1");
    refuses_boards("format = 1\nby = \"\"\n" + look + board, "key-missing", "format", "whose boards");
    refuses_boards("format = 1\nby = \"x\"\nboards = 2\n" + look + board, "key-unknown", "boards", "the boards file");
    refuses_boards("format = 1\nby = \"x\"\nboard = [ 5 ]\n" + look, "value-type", "5 ]", "a board is a table");
}

TEST_CASE("boards have names of their own, a wood, and steps that are tables") {
    const std::string reading = "reading = [ { name = \"bare\" } ]\n";
    refuses_boards(boards_head + "[[board]]\nwood = \"ash\"\n" + reading, "key-missing", "[[board]]", "needs a name");
    refuses_boards(boards_head + "[[board]]\nname = \"B\"\n" + reading, "key-missing", "[[board]]",
                   "board \"B\" needs its wood");
    refuses_boards(boards_head + "[[board]]\nname = \"B\"\nwood = \"asch\"\n" + reading, "material-unknown", "\"asch\"",
                   "ash");
    refuses_boards(boards_head + "[[board]]\nname = \"B\"\nwood = \"ash\"\nstep = [ 5 ]\n" + reading, "value-type",
                   "5 ]", "[[board.step]]");
    refuses_boards(boards_head + "[[board]]\nname = \"B\"\nwood = \"ash\"\nfinish = \"x\"\n" + reading, "key-unknown",
                   "finish", "in [[board]]");
    refuses_boards(
        boards_head + "[[board]]\nname = \"B\"\nwood = \"ash\"\n" + reading + "[[board.step]]\nuse = \"tongue\"\n",
        "material-unknown", "\"tongue\"", "no material 'tongue'");
}

TEST_CASE("a reading says a state that its board has") {
    refuses_boards(boards_head + board_of("{ name = \"one\", step = 2 }"), "reading-state", "name = \"one\"",
                   "after step 2, but board \"A\" has 1 step");
    refuses_boards(boards_head + board_of("{ name = \"one\", step = 1, coat = 0 }"), "reading-state", "name = \"one\"",
                   "coats 1 to 2");
    refuses_boards(boards_head + board_of("{ name = \"one\", step = 0, coat = 1 }"), "reading-state", "name = \"one\"",
                   "step 0 is the bare board");
    refuses_boards(boards_head + board_of("{ name = \"one\", step = 1, coat = 1, lb = 5 }"), "key-unknown", "lb = 5",
                   "a reading");
    refuses_boards(boards_head + board_of("{ name = \"one\", step = 1.5 }"), "value-whole", "1.5", "whole number");
    refuses_boards(boards_head + board_of("{ name = \"one\", spread_de = 0 }"), "value-range", "0 }", "0.01 to 20 dE");
    refuses_boards(boards_head + board_of("5"), "value-type", "5 ]", "a reading is {");
    refuses_boards(boards_head + "[[board]]\nname = \"A\"\nwood = \"ash\"\nreading = 5\n", "value-type", "reading = 5",
                   "reading is a list");
    refuses_boards(boards_head + board_of("{ lab = [80, 5] }"), "value-range", "lab", "[L, a, b]");
}

TEST_CASE("a file of readings that is not named, not there or not one is told") {
    const std::string head = boards_head.substr(0, boards_head.find("[readings]"));
    refuses_boards(head + board_of("{ name = \"bare\" }"), "readings-missing", "{ name", "no file is named");
    const auto none =
        faults_of([&] { boards_from(head + "[readings]\nfile = \"none.txt\"\n" + board_of("{ name = \"bare\" }")); });
    REQUIRE(none.size() == 1);  // the missing file is told once, not once a reading
    CHECK(none[0].id == "file-missing");
    refuses_boards(head + "[readings]\nhand = 1.5\n" + board_of("{ lab = [80, 5, 18] }"), "value-range", "1.5",
                   "0 to 1");
    refuses_boards(head + "[readings]\nspread_de = 21\n" + board_of("{ lab = [80, 5, 18] }"), "value-range", "21",
                   "0.01 to 20 dE");
    refuses_boards(head + "[readings]\nnoise = 1\n" + board_of("{ lab = [80, 5, 18] }"), "key-unknown", "noise",
                   "[readings]");
}

TEST_CASE("names for fitted materials are ids, of materials that the boards use") {
    const auto named = [](const std::string& line) {
        return boards_head + board_of("{ name = \"bare\" }, { name = \"two\", step = 1 }") + "[names]\n" + line;
    };
    const auto b = boards_from(named("orange-shellac = \"march-2\"\n"));
    CHECK(b.written_as("orange-shellac") == "march-2");
    CHECK(b.written_as("hard-maple") == "my-hard-maple");
    CHECK(b.written_as("alcohol") == "alcohol");  // a liquid keeps its name
    refuses_boards(named("tung = \"x\"\n"), "key-unknown", "tung", "in [names]");
    for (const char* bad : {"", "March", "a b", "a_b", "ö"})
        refuses_boards(named("orange-shellac = \"" + std::string(bad) + "\"\n"), "value-choice", "orange-shellac",
                       "made of a-z, 0-9 and '-'");
}

TEST_CASE("materials that a boards file brings along are its own, and may be what it fits") {
    const auto b =
        boards_from(boards_head +
                    "[material.brew]\nkind = \"film\"\nlike = \"oil-varnish\"\n[[board]]\nname = \"A\"\nwood = "
                    "\"ash\"\nreading = [ { name = \"bare\" }, { name = \"one\", step = 1 } ]\n"
                    "[[board.step]]\nuse = \"brew\"\n");
    CHECK(b.own == std::set<std::string>{"brew"});
    CHECK(b.question.materials.count("brew") == 1);
    bool filled = false;
    for (const auto& w : b.warnings) filled = filled || w.id == "material-filled";
    CHECK(filled);
}
