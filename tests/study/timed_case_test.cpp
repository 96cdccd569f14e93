// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/timed_case.hpp"

#include "../drill/play.hpp"
#include "procedure/edit.hpp"
#include "study/observed_durations.hpp"

namespace beforehand::study {
namespace {

TimedCase read(const std::string& csv) {
  auto reading = read_case(csv, "a");
  EXPECT_TRUE(reading.problems.empty()) << print(reading.problems, "a.csv", csv);
  return reading.timed;
}

std::string problems_of(const std::string& csv) {
  std::string all;
  for (const auto& p : read_case(csv, "a").problems)
    all += std::to_string(p.mark.line) + ":" + std::to_string(p.mark.column) + " " +
           p.message.english() + "\n";
  return all;
}

TEST(CaseCsv, ReadsTimesTextsAndLineEndsAsPeopleWriteThem) {
  const auto c = read(
      "\xef\xbb\xbfPerson, Step ,start,end\r\n"
      "A,\"mix, then \"\"spread\"\"\",75.5,1:20\r\n\r\nB,look,0:00:07,0:01:15.25\n");
  ASSERT_EQ(c.seen.size(), 2u);
  EXPECT_EQ(c.seen[0].person, "B");  // by start
  EXPECT_EQ(c.seen[0].end, Ms{75'250});
  EXPECT_EQ(c.seen[1].step, "mix, then \"spread\"");
  EXPECT_EQ(c.seen[1].start, Ms{75'500});
  EXPECT_EQ(c.seen[1].end, Ms{80'000});
}

TEST(CaseCsv, TellsEveryProblemAtOnceWithItsPlace) {
  EXPECT_EQ(problems_of("person,step,start,end\n"
                        "A,mix,1:75,80\n"
                        ",look,0,5\n"
                        "A,=1+1,0,5\n"
                        "A,look,9,5\n"
                        "A,look,0\n"),
            "2:7 \"1:75\" is no start; write seconds (75.5) or minutes (1:15.5)\n"
            "3:1 no person here\n"
            "4:3 \"=1+1\" begins as a formula does; a step begins with a letter or digit\n"
            "5:10 \"look\" ends at 5, no later than it starts (9)\n"
            "6:1 3 cells; \"person,step,start,end\" are four (a text with a comma needs quotes)\n");
}

TEST(CaseCsv, RefusesWhatIsNoCase) {
  EXPECT_EQ(problems_of(""), "1:1 the first line should be \"person,step,start,end\"\n");
  EXPECT_EQ(problems_of("step,person,start,end\nA,b,1,2\n"),
            "1:1 the first line should be \"person,step,start,end\"\n");
  EXPECT_EQ(problems_of("person,step,start,end\n"),
            "0:0 no work in it; write one line for each piece of work\n");
  EXPECT_NE(problems_of("person,step,start,end\nA,\"mix,0,5\n").find("2:3 a quote"),
            std::string::npos);
  EXPECT_NE(problems_of("person,step,start,end\nA,\"mix\"ed,0,5\n"), "");
  EXPECT_NE(problems_of("person,step,start,end\nA,mix,0,43201\n"), "");
  EXPECT_NE(problems_of("person,step,start,end\nA,mi\x01x,0,5\n"), "");
  EXPECT_NE(problems_of("person,step,start,end\nA,mix,-1,5\n"), "");
  EXPECT_NE(problems_of(std::string(1 << 21, 'x')), "");
}

const std::string tiny_case =
    "person,step,start,end\n"
    "Assistant,set-out-liner,100,104\n"
    "Assistant,Takes up the water,104,116\n"
    "Clinician,rinse,104,115\n"
    "assistant,mix-liner,116,128\n"
    "assistant,pass-liner,128,130\n"
    "clinician,apply,130.5,146\n"
    "assistant,take-back-liner,146,148\n"
    "clinician,look,146,152\n";

TEST(TimedCase, GivesTheFiguresOfADrill) {
  const auto p = test::tiny();
  const auto f = figures(read(tiny_case), &p);
  ASSERT_EQ(f.lanes, (std::vector<std::string>{"Clinician", "Assistant"}));
  EXPECT_EQ(f.chair_time, Ms{52'000});
  const auto &clinician = f.time[0], &assistant = f.time[1];
  EXPECT_EQ(clinician.work, Ms{32'500});
  EXPECT_EQ(clinician.waiting,
            Ms{19'500});  // before rinsing for what is set out, then for the paste
  EXPECT_EQ(assistant.work, Ms{20'000});
  EXPECT_EQ(assistant.cover, Ms{12'000});
  EXPECT_EQ(assistant.standby + assistant.waiting, Ms{20'000});
  EXPECT_EQ(f.both_idle, Ms{500});
  for (const auto& t : f.time) EXPECT_EQ(t.total(), f.chair_time);
}

TEST(TimedCase, IsCheckedAgainstTheProtocol) {
  const auto p = test::tiny();
  const auto right = figures(read(tiny_case), &p);
  EXPECT_EQ(right.order.fitness, 1);
  EXPECT_TRUE(right.omitted.empty());

  auto csv = tiny_case;
  csv.replace(csv.find("clinician,look,146,152"), 22, "clinician,look,117,123");
  csv += "clinician,chat,152,160\nassistant,mix-liner,152,160\n";
  const auto wrong = figures(read(csv), &p);
  EXPECT_EQ(wrong.extra.size(), 1u);
  EXPECT_EQ(wrong.repeated.size(), 1u);
  ASSERT_EQ(wrong.out_of_order.size(), 1u);
  EXPECT_EQ(wrong.work[wrong.out_of_order[0]].label, "Looks at the lining");
  EXPECT_EQ(wrong.order.cost, 4);  // three actions and one step are not kept
}

TEST(TimedCase, TellsALagThatWasNotKept) {
  const auto p = test::tiny();  // lining within 2 min of rinsing
  auto csv = tiny_case;
  csv.replace(csv.find("130.5,146"), 9, "250,261.5");
  const auto f = figures(read(csv), &p);
  ASSERT_EQ(f.lags.size(), 1u);
  EXPECT_EQ(f.lags[0].off, Ms{15'000});
}

std::vector<ObservedStep> of_mixing(const procedure::Procedure& p,
                                    const std::vector<int>& seconds) {
  std::vector<CaseFigures> cases;
  std::vector<std::string> names;
  for (const int s : seconds) {
    cases.push_back(figures(
        read("person,step,start,end\nassistant,mix-liner,0," + std::to_string(s) + "\n"), &p));
    names.push_back("case " + std::to_string(names.size() + 1));
  }
  return observed(cases, names, p);
}

TEST(ObservedDurations, ShowOutliersAndKeepThem) {
  const auto steps = of_mixing(test::tiny(), {11, 9, 10, 60, 12});
  ASSERT_EQ(steps.size(), 1u);
  EXPECT_EQ(steps[0].estimate.least, Ms{9000});
  EXPECT_EQ(steps[0].estimate.usual, Ms{11'000});
  EXPECT_EQ(steps[0].estimate.most, Ms{60'000});
  EXPECT_TRUE(steps[0].seen.back().outlier);
  EXPECT_EQ(steps[0].seen.back().in_case, "case 4");
  EXPECT_FALSE(steps[0].seen.front().outlier);
}

TEST(ObservedDurations, GoIntoACopyWithTheirOriginAndEveryRemark) {
  const auto p = test::tiny();
  const auto before =
      procedure::load_text(std::string(PROJECT_DIR) + "/tests/scenarios/good/tiny.yaml");
  const auto after = with_observed(before, p, of_mixing(p, {9, 11, 12}), "3 cases timed");
  auto expected = before;
  const std::string old_takes = "{least: 8 s, usual: 10 s, most: 12 s}";
  const auto at = expected.find("  - {id: mix-liner");
  expected.replace(expected.find(old_takes, at), old_takes.size(),
                   "{least: 9 s, usual: 11 s, most: 12 s}");
  expected.insert(at, "  # takes: 3 cases timed, seen 3 times\n");
  EXPECT_EQ(after, expected);
}

}  // namespace
}  // namespace beforehand::study
