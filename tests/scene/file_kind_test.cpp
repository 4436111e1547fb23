#include "foretone/scene/file_kind.hpp"

#include <catch2/catch.hpp>

#include "foretone/scene/problem.hpp"

using namespace foretone::scene;

TEST_CASE("a file with a wood or a finish is a scene, a file of materials is none") {
    CHECK(is_scene("format = 1\n[wood]\nuse = \"ash\"\n", "a.toml"));
    CHECK(is_scene("format = 1\n[[finish]]\nname = \"a\"\n", "a.toml"));
    CHECK(is_scene("wood.use = \"ash\"\n", "a.toml"));
    CHECK(is_scene("finish = [ { name = \"a\" } ]\n", "a.toml"));
    CHECK_FALSE(is_scene("format = 1\n[material.own]\nkind = \"film\"\n", "a.toml"));
    // Words in a comment or a text are none of its keys.
    CHECK_FALSE(is_scene("# [wood]\n[material.own]\nnote = \"\"\"\n[wood]\n[[finish]]\n\"\"\"\n", "a.toml"));
    CHECK_FALSE(is_scene("", "a.toml"));
    CHECK_THROWS_AS(is_scene("format = ", "a.toml"), InputError);
}

TEST_CASE("a file with boards is a boards file") {
    CHECK(is_boards("format = 1\n[[board]]\nname = \"A\"\n", "a.toml"));
    CHECK_FALSE(is_boards("format = 1\n[[finish]]\nname = \"board\"\n", "a.toml"));
    CHECK_FALSE(is_boards("# [[board]]\n", "a.toml"));
    CHECK_THROWS_AS(is_boards("format = ", "a.toml"), InputError);
}

TEST_CASE("what a scene says beside its finishes changes with nothing that is a finish, a comment or a blank") {
    const std::string scene = "format = 1\ntitle = \"T\"\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"a\"\n";
    const auto as_is = all_but_finishes(scene, "a.toml");
    CHECK(all_but_finishes(scene + "[[finish]]\nname = \"b\"\n[[finish.step]]\nuse = \"tung\"\n", "a.toml") == as_is);
    CHECK(all_but_finishes("# said aside\n\n title = 'T'\nformat = 1\nwood = { use = \"ash\" }\n", "a.toml") == as_is);
    CHECK(all_but_finishes("format = 1\ntitle = \"T\"\n[wood]\nuse = \"oak\"\n", "a.toml") != as_is);
    CHECK(all_but_finishes(scene + "[target]\nlab = [50, 1, 2]\n", "a.toml") != as_is);
    CHECK(all_but_finishes(scene + "[target]\nlab = [50, 1, 2]\n", "a.toml") !=
          all_but_finishes(scene + "[target]\nlab = [50, 1, 2.5]\n", "a.toml"));
    CHECK(all_but_finishes("a = \"x;1:b=1:y\"\n", "a.toml") != all_but_finishes("a = \"x\"\nb = \"y\"\n", "a.toml"));
    CHECK(all_but_finishes("a = true\n", "a.toml") != all_but_finishes("a = false\n", "a.toml"));
}
