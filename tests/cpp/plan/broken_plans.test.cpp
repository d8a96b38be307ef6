// SPDX-License-Identifier: MIT
#include <algorithm>
#include <string>
#include <vector>

#include "catch.hpp"
#include "plan/toml.hpp"
#include "plan_files.hpp"

using namespace plan_tests;
using seasonrisk::read_plan;

TEST_CASE("the plans that the others break are sound", "[plan]") {
    CHECK(texts_of(read_plan(sound_text(), "plan.toml").findings).empty());
    CHECK(texts_of(read_plan(business_text(), "plan.toml").findings).empty());
}

// Source of the expected lines and messages: tests/data/broken_plans/expected.toml says.
TEST_CASE("each broken plan is told all that is wrong with it, with its line, and nothing else", "[plan]") {
    const toml::table expected = toml::parse(text_of(broken_plans() / "expected.toml"));
    const toml::array& cases = *expected["case"].as_array();
    CHECK(cases.size() >= 230);
    for (const toml::node& node : cases) {
        const toml::table& broken = *node.as_table();
        std::string text = broken.contains("plan") ? business_text() : sound_text();
        for (const toml::node& pair : *broken["change"].as_array()) {
            const toml::array& texts = *pair.as_array();
            text = changed(text, texts[0].ref<std::string>(), texts[1].ref<std::string>());
        }
        std::vector<std::string> says;
        for (const toml::node& line : *broken["says"].as_array()) says.push_back(line.ref<std::string>());
        std::vector<std::string> said = texts_of(read_plan(text, "plan.toml").findings);
        for (std::size_t n = 0; n < std::min(said.size(), says.size()); ++n) {
            if (says[n].ends_with("...") && said[n].starts_with(says[n].substr(0, says[n].size() - 3)))
                said[n] = says[n];
        }
        INFO(broken["about"].ref<std::string>());
        CHECK(said == says);
    }
}

// Source of the three below: common practice (what editors and copies do to files).
TEST_CASE("a file that holds no text is refused in one sentence", "[plan]") {
    CHECK(texts_of(read_plan("", "plan.toml").findings)
          == std::vector<std::string>{"plan.toml: the plan is empty; start from one that works: seasonrisk new"});
    CHECK(texts_of(read_plan(" \r\n\t\n", "plan.toml").findings)
          == std::vector<std::string>{"plan.toml: the plan is empty; start from one that works: seasonrisk new"});
    CHECK_FALSE(read_plan("# nothing but a comment\n", "plan.toml").ok());
    CHECK_FALSE(read_plan(std::string(3, '\0'), "plan.toml").ok());
}

TEST_CASE("a text in which the TOML reader loses its way is refused with its line", "[plan]") {
    // Source: toml++ 3.3 ends the program at a key of nothing but a dot (found by changing bytes at random).
    CHECK(texts_of(read_plan("plan = 1\n[business]\n[.]\n[season]\n", "plan.toml").findings)
          == std::vector<std::string>{
              "plan.toml:3: cannot be read as TOML: the TOML reader lost its way in this text; "
              "look at this line and the one before it: a quote, a bracket or an = may be missing"});
}

TEST_CASE("a text that nests without end is refused before it is read", "[plan]") {
    std::string deep = "plan = 1\na";
    for (int level = 0; level < 100'000; ++level) deep += ".a";
    const std::string lists = "plan = 1\na = " + std::string(5'000, '[');

    CHECK(texts_of(read_plan(deep + " = 1", "plan.toml").findings)
          == std::vector<std::string>{"plan.toml:2: is longer than any line of a plan; break it into several lines"});
    CHECK_FALSE(read_plan(lists, "plan.toml").ok());
}

TEST_CASE("a file that is not UTF-8 is refused with the line of its first wrong byte", "[plan]") {
    const std::string latin_1 = changed(sound_text(), "Ember", "\xc9mile");
    const std::string cut_off = sound_text() + "# \xe2\x82";
    const std::string utf_16 = "\xff\xfep\0l\0a\0n\0";

    CHECK(texts_of(read_plan(latin_1, "plan.toml").findings)
          == std::vector<std::string>{"plan.toml:66: is not UTF-8 text; save the file as UTF-8 in your editor"});
    CHECK(texts_of(read_plan(cut_off, "plan.toml").findings)
          == std::vector<std::string>{"plan.toml:126: is not UTF-8 text; save the file as UTF-8 in your editor"});
    CHECK(texts_of(read_plan(utf_16, "plan.toml").findings)
          == std::vector<std::string>{"plan.toml:1: is not UTF-8 text; save the file as UTF-8 in your editor"});
}

TEST_CASE("a UTF-8 mark at the start, Windows line ends and accents do no harm", "[plan]") {
    std::string windows = "\xef\xbb\xbf";
    for (const char c : changed(sound_text(), "Ember", "\xc3\x89mile"))
        windows += c == '\n' ? std::string("\r\n") : std::string(1, c);

    const auto reading = read_plan(windows, "plan.toml");

    CHECK(texts_of(reading.findings).empty());
    CHECK(reading.plan.boat.at(0).name == "\xc3\x89mile");
}

TEST_CASE("more sections than there are addresses for are refused", "[plan]") {
    // Source: random/address.hpp, 8 bits for an item; the limits are from the plan's own rule book.
    std::string text = sound_text();
    for (int n = 0; n < 200; ++n) text += "[[standing]]\nname = \"bill\"\namount = 1\nmonth = \"jan\"\n";

    CHECK(texts_of(read_plan(text, "plan.toml").findings)
          == std::vector<std::string>{"plan.toml:105: standing: has 201 entries; must be no more than 200"});
}

TEST_CASE("more of what is sold, promised and bought than anyone follows is refused", "[plan]") {
    // Source: the rule book's own limits: 20 grades a species, 60 in all, 10 outlets, 20 orders, 6 fisheries a boat.
    std::string text = business_text();
    std::string grades, species, outlets, orders, fisheries;
    for (int n = 0; n < 20; ++n)
        grades += "[[species.grade]]\nname = \"grade " + std::to_string(n) + "\"\nfraction = 0\n";
    for (int n = 0; n < 36; ++n)
        species +=
            "[[species]]\nname = \"fish " + std::to_string(n) + "\"\nunit = \"kg\"\nper_haul = 1\nyear_carry = 0.6\n";
    for (int n = 0; n < 9; ++n)
        outlets += "[[outlet]]\nname = \"shop " + std::to_string(n) + "\"\nprice = { lobster = 1 }\nyear_carry = 0.5\n";
    for (int n = 0; n < 19; ++n)
        orders += "[[order]]\nwho = \"guest " + std::to_string(n)
                  + "\"\ngrade = \"lobster\"\nquantity = 1\ndays = [\"Friday\"]\nprice = 20\n";
    for (int n = 0; n < 5; ++n)
        fisheries += "[[boat.fishery]]\ngear = \"pots\"\ncount = 10\nhauls_per_day = 10\nspecies = [\"crab\"]\n";
    text = changed(text, "  [[species.grade]]\n  name = \"small prawns\"",
                   grades + "  [[species.grade]]\n  name = \"small prawns\"");
    text = changed(text, "[together]", species + "[together]");
    text = changed(text, "[[order]]\nwho = \"the inn\"", outlets + orders + "[[order]]\nwho = \"the inn\"");
    text = changed(text, "  [[boat.fishery]]\n  gear = \"trotline\"",
                   fisheries + fisheries + "  [[boat.fishery]]\n  gear = \"trotline\"");

    const std::vector<std::string> said = texts_of(read_plan(text, "plan.toml").findings);
    const auto is_told = [&](const std::string& what) {
        return std::ranges::count_if(
                   said, [&](const std::string& line) { return line.find(": " + what) != std::string::npos; })
               == 1;
    };

    CHECK(is_told("species.2.grade: has 22 entries; must be no more than 20"));
    CHECK(is_told("species: comes to 61 grades in all; must be no more than 60"));
    CHECK(is_told("outlet: has 11 entries; must be no more than 10"));
    CHECK(is_told("order: has 21 entries; must be no more than 20"));
    CHECK(is_told("boat.1.fishery: has 11 entries; must be no more than 6"));
}

TEST_CASE("a plan without a boat says no more than that", "[plan]") {
    // Source: common practice: one slip, one finding.
    const std::string sound = sound_text();
    const std::size_t boat = sound.find("[[boat]]");
    std::string text = sound.substr(0, boat) + sound.substr(sound.find("[[standing]]\nname = \"licence\""));
    text = changed(text, "set = { \"boat.0.fishery.0.count\" = 520 }", "");

    CHECK(texts_of(read_plan(text, "plan.toml").findings) == std::vector<std::string>{"plan.toml:1: boat: is missing"});
}
