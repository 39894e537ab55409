// The command as its users meet it: what it prints, its exit status, the files it leaves.
#include "tests/command/command.h"

namespace spadework::testing {
namespace {

TEST_F(Command, LightPrintsATableAndTheSameAsJson) {
  const Outcome text = run("light " + kKerAvel);
  EXPECT_EQ(text.status, 0) << text.err;
  EXPECT_NE(text.out.find("Ker Avel, as proposed"), std::string::npos);
  const Outcome as_json = run("light " + kKerAvel + " --json");
  ASSERT_EQ(as_json.status, 0);
  const json light = json::parse(as_json.out);
  ASSERT_GT(light["places"].size(), 10u);
  for (const json& place : light["places"]) {
    for (const char* key : {"id", "kind", "area_m2", "months", "takers", "taken_twice_h"})
      EXPECT_TRUE(place.contains(key)) << key;
    ASSERT_EQ(place["months"].size(), 12u);
    for (const json& month : place["months"]) {
      for (const char* key : {"month", "sun_h_per_day", "sunshine_h_per_day", "morning_h",
                              "midday_h", "afternoon_h", "dli_mol_m2_d", "share_of_open"})
        EXPECT_TRUE(month.contains(key)) << key;
    }
    // The table's first line of each place carries the JSON's June figure.
    const std::string line = text.out.substr(text.out.find(place["id"].get<std::string>() + "  "));
    char june[16];
    std::snprintf(june, sizeof june, "%.1f", place["months"][5]["sun_h_per_day"].get<double>());
    EXPECT_NE(line.substr(0, line.find('\n')).find(june), std::string::npos) << place["id"];
  }
}

TEST_F(Command, LightOfEverySchemeOfEveryExampleRuns) {
  for (const auto& file : fs::directory_iterator(SPADEWORK_SOURCE_DIR "/examples")) {
    const std::string garden = file.path().string();
    EXPECT_EQ(run("check " + garden).status, 0) << garden;
    for (const char* scheme : {"found", "proposed"})
      EXPECT_EQ(run("light " + garden + " --json --scheme " + scheme).status, 0) << garden;
    EXPECT_EQ(run("light " + garden + " --against found").status, 0) << garden;
    EXPECT_EQ(run("findings " + garden).status, 0) << garden;
  }
}

TEST_F(Command, ASpotOnADayGivesItsIntervals) {
  const Outcome outcome = run("light " + kKerAvel + " --at 4,10 --day 2026-06-21 --json");
  ASSERT_EQ(outcome.status, 0) << outcome.err;
  const json spot = json::parse(outcome.out);
  EXPECT_GT(spot["sun_h"].get<double>(), 1);
  ASSERT_FALSE(spot["intervals"].empty());
  EXPECT_EQ(spot["intervals"][0].size(), 2u);
  EXPECT_EQ(spot["intervals"][0][0].get<std::string>().size(), 8u);  // HH:MM:SS
  EXPECT_GT(spot["dli_mol_m2_d"].get<double>(), 1);
  EXPECT_LT(spot["dli_mol_m2_d"].get<double>(), 60);
}

TEST_F(Command, ASpotOffTheSurveyedGroundIsAnsweredWithAFinding) {
  const Outcome outcome = run("light " + kKerAvel + " --at 400,10");
  EXPECT_EQ(outcome.status, 0);
  EXPECT_NE(outcome.err.find("surveyed"), std::string::npos);
}

TEST_F(Command, WhyLeadsToTheSource) {
  const Outcome outcome =
      run("why " + kKerAvel + " /light/places/upper-mid/months/5/sun_h_per_day");
  ASSERT_EQ(outcome.status, 0) << outcome.err;
  for (const char* part :
       {"garden.latitude_deg", "ker-avel.toml:", "Ineichen", "[spa]", "from memory"})
    EXPECT_NE(outcome.out.find(part), std::string::npos) << part;
  const json trace = json::parse(
      run("why " + kKerAvel + " /light/places/upper-mid/months/5/sun_h_per_day --json").out);
  for (const char* key : {"value", "method", "inputs", "sources", "standing"})
    EXPECT_TRUE(trace.contains(key)) << key;
}

TEST_F(Command, ExitStatusTellsWhatKindOfTroubleItIs) {
  const std::string broken = write("broken.toml", "format = 1\n[garden]\ntitle = 3\n");
  EXPECT_EQ(run("check " + broken).status, 1);
  EXPECT_EQ(run("light " + broken).status, 1);
  EXPECT_EQ(run("light").status, 2);
  EXPECT_EQ(run("dig " + kKerAvel).status, 2);
  EXPECT_EQ(run("light " + kKerAvel + " --scheme nowhere").status, 2);
  EXPECT_EQ(run("light " + kKerAvel + " --at here").status, 2);
  EXPECT_EQ(run("light " + kKerAvel + " --day 2026-02-30").status, 2);
  EXPECT_EQ(run("light " + kKerAvel + " --places no-such-bed").status, 2);
  EXPECT_EQ(run("why " + kKerAvel + " /light").status, 2);
  EXPECT_EQ(run("light /no/such/garden.toml").status, 3);
  EXPECT_EQ(run("light " + kKerAvel + " --quiet --grid /no/such/folder/field.csv").status, 3);
  EXPECT_EQ(
      run("light " + kKerAvel + " --quiet --cell 0.005 --grid " + (folder_ / "field.csv").string())
          .status,
      4);
  EXPECT_FALSE(fs::exists(folder_ / "field.csv"));
}

TEST_F(Command, NoOptionIsPassedOverInSilence) {
  const std::string png = " --png " + (folder_ / "x.png").string();
  for (const std::string& words :
       {std::string("--at 4,10 --against found"), "--at 4,10" + png, std::string("--month 6"),
        std::string("--print bank"), "--day 06-21 --month 6" + png,
        "--print bank --day 06-21" + png, std::string("--print bank --json --against found"),
        std::string("--print no-such-bed --json")})
    EXPECT_EQ(run("light " + kKerAvel + " " + words).status, 2) << words;
  EXPECT_FALSE(fs::exists(folder_ / "x.png"));
  EXPECT_EQ(run("").status, 2);
}

TEST_F(Command, ADayIsComparedAndGridded) {
  const Outcome outcome = run("light " + kKerAvel + " --day 06-21 --against found");
  EXPECT_EQ(outcome.status, 0);
  EXPECT_NE(outcome.out.find("then"), std::string::npos);
  const std::string csv = (folder_ / "day.csv").string();
  EXPECT_EQ(run("light " + kKerAvel + " --quiet --day 06-21 --cell 1 --grid " + csv).status, 0);
  EXPECT_EQ(slurp(csv).substr(0, 16), "x_m,y_m,on,sun_h");
}

TEST_F(Command, AFullDiskIsTold) {
  EXPECT_EQ(run("light " + kKerAvel + " --json > /dev/full").status, 3);
}

TEST_F(Command, ProblemsComeAllAtOnceAsTextAndJson) {
  const std::string broken = write("broken.toml",
                                   "format = 1\n[garden]\ntitel = \"x\"\nlatitude_deg = 100\n"
                                   "longitude_deg = 0\ntime_zone = \"Europe/Pariss\"\n");
  const Outcome text = run("check " + broken);
  EXPECT_EQ(text.status, 1);
  EXPECT_NE(text.err.find("broken.toml:3:1"), std::string::npos);
  const json problems = json::parse(run("check --json " + broken).out)["problems"];
  EXPECT_GE(problems.size(), 3u);
  for (const json& problem : problems) {
    for (const char* key : {"where", "code", "message", "hint"}) EXPECT_TRUE(problem.contains(key));
  }
}

TEST_F(Command, TheGridHasTheFiguresOfTheField) {
  const std::string csv = (folder_ / "field.csv").string();
  ASSERT_EQ(run("light " + kKerAvel + " --quiet --cell 0.5 --grid " + csv).status, 0);
  std::ifstream file(csv);
  std::string header, line;
  std::getline(file, header);
  EXPECT_EQ(header.rfind("x_m,y_m,on,sun_h_per_day_01", 0), 0u);
  int rows = 0;
  bool a_bed = false;
  while (std::getline(file, line)) {
    ++rows;
    EXPECT_EQ(std::count(line.begin(), line.end(), ','), 28);
    a_bed = a_bed || line.find("upper-mid") != std::string::npos;
  }
  EXPECT_GT(rows, 800);
  EXPECT_TRUE(a_bed);
}

TEST_F(Command, PicturesAreWholeFiles) {
  const fs::path svg = folder_ / "a.svg", png = folder_ / "a.png";
  const std::string files = " --svg " + svg.string() + " --png " + png.string();
  for (const std::string& which :
       {std::string(), std::string(" --month jan"), std::string(" --day 06-21"),
        std::string(" --print upper-mid")}) {
    fs::remove(svg), fs::remove(png);
    const Outcome outcome = run("light " + kKerAvel + " --quiet" + which + files);
    EXPECT_EQ(outcome.status, 0) << which << outcome.err;
    EXPECT_NE(slurp(svg).find("</svg>"), std::string::npos) << which;
    EXPECT_EQ(slurp(png).substr(1, 3), "PNG") << which;
    EXPECT_EQ(std::distance(fs::directory_iterator(folder_), fs::directory_iterator()), 3) << which;
  }
}

TEST_F(Command, APrintAsDataAddsUpToItsTable) {
  const Outcome outcome = run("light " + kKerAvel + " --print upper-mid --json");
  ASSERT_EQ(outcome.status, 0) << outcome.err;
  const json all = json::parse(outcome.out);
  ASSERT_EQ(all["places"].size(), 1u);
  const json &place = all["places"][0], &print = all["print"];
  EXPECT_EQ(print["place"], "upper-mid");
  ASSERT_EQ(print["days"].size(), 365u);
  double lit = 0, twice = 0;
  bool striped = false;
  const auto hour = [](const json& clock) {
    const std::string text = clock;
    return std::stod(text.substr(0, 2)) + std::stod(text.substr(3)) / 60;
  };
  for (const json& day : print["days"]) {
    for (const json& span : day["spans"]) {
      const double hours = hour(span["end"]) - hour(span["start"]);
      ASSERT_GT(hours, 0);
      lit += hours * span["lit_share"].get<double>();
      twice += hours * span["taken_twice_share"].get<double>();
      striped = striped || !span["second"].is_null();
    }
  }
  EXPECT_TRUE(striped);
  EXPECT_NEAR(lit, print["sun_h_per_year"].get<double>(), 0.1);
  EXPECT_NEAR(twice, print["taken_twice_h"].get<double>(), 0.1);
  // Few points every five minutes against every cell every hour: 3 %.
  EXPECT_NEAR(twice / place["taken_twice_h"].get<double>(), 1, 0.03);
  EXPECT_NEAR(print["lost_h"].get<double>() / place["lost_h"].get<double>(), 1, 0.03);
  double first = 0;
  for (const json& taker : print["takers"]) first += taker["first_h_per_year"].get<double>();
  EXPECT_NEAR(first, print["lost_h"].get<double>(), 1e-6);
}

TEST_F(Command, NewBeginsADocumentThatReadsAndNeverOverwrites) {
  const std::string file = (folder_ / "mine.toml").string();
  const std::string words =
      "new " + file + " --title Mine --latitude 48.4 --longitude -4.4 --time-zone Europe/Paris";
  EXPECT_EQ(run(words).status, 0);
  EXPECT_EQ(run("check " + file).status, 0);
  EXPECT_EQ(run("light " + file).status, 0);
  EXPECT_EQ(run(words).status, 3);
  EXPECT_EQ(run("new " + (folder_ / "b.toml").string() +
                " --title B --latitude 99 --longitude 0 --time-zone UTC")
                .status,
            2);
}

TEST_F(Command, TenThousandThingsAreAnsweredForThePlacesAskedFor) {
  std::string text =
      "format = 1\n[garden]\ntitle = \"Big\"\nlatitude_deg = 48\nlongitude_deg = 0\n"
      "time_zone = \"UTC\"\n";
  for (int i = 0; i < 5000; ++i) {
    const int x = i % 100 * 4, y = i / 100 * 3;
    const std::string n = std::to_string(i), at = std::to_string(x) + "," + std::to_string(y);
    text += "[[bed]]\nid = \"b" + n + "\"\nat = [" + at + "]\nsize = [3,1.2]\n[[wall]]\nid = \"w" +
            n + "\"\nline = [[" + at + "],[" + std::to_string(x + 3) + "," + std::to_string(y) +
            "]]\nheight_m = 1\nkind = \"brick\"\n";
  }
  const std::string file = write("big.toml", text);
  EXPECT_EQ(run("check " + file).status, 0);
  EXPECT_EQ(run("findings " + file).status, 0);
  const Outcome outcome = run("light " + file + " --places b100,b2000 --json");
  ASSERT_EQ(outcome.status, 0) << outcome.err;
  EXPECT_EQ(json::parse(outcome.out)["places"].size(), 2u);
}

TEST_F(Command, SourcesTellsEachWithItsCitation) {
  const json sources = json::parse(run("sources --json").out)["sources"];
  EXPECT_GT(sources.size(), 20u);
  for (const json& source : sources) {
    EXPECT_FALSE(source["citation"].get<std::string>().empty());
    EXPECT_FALSE(source["used_by"].empty()) << source["id"];
  }
  EXPECT_EQ(run("sources spa").status, 0);
  EXPECT_EQ(run("sources spaa").status, 2);
}

}  // namespace
}  // namespace spadework::testing
