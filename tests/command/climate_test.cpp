// `climate`: a place's months, and gardens with weather of their own, whole and broken.
#include "tests/command/command.h"

namespace spadework::testing {
namespace {

const fs::path kWeather = SPADEWORK_SOURCE_DIR "/tests/golden/weather";

class Climate : public Command {
 protected:
  /// A garden of one bed at a place, with more tables.
  std::string garden(const std::string& where, const std::string& tables) {
    return write("garden.toml", "format = 1\n[garden]\ntitle = \"Test\"\n" + where + "\n" + tables +
                                    "\n[[bed]]\nid = \"bed\"\nat = [0, 0]\nsize = [2, 1]\n");
  }
  std::string dublin(const std::string& tables) {
    return garden(
        "latitude_deg = 53.43\nlongitude_deg = -6.25\nelevation_m = 70\n"
        "time_zone = \"Europe/Dublin\"",
        tables);
  }
  void fetch(const std::string& file) {
    fs::copy_file(kWeather / file, folder_ / fs::path(file).filename());
  }
  json climate(const std::string& file) {
    const Outcome outcome = run("climate " + file + " --json");
    EXPECT_EQ(outcome.status, 0) << outcome.err;
    return outcome.status == 0 ? json::parse(outcome.out) : json();
  }
};

constexpr const char* kDublinFile =
    "[climate]\nweather_file = \"dublin_1991_2020_jan_feb_jul.csv\"";

TEST_F(Climate, PrintsMonthsStationsAndTheSameAsJson) {
  const json months = climate(kKerAvel)["months"];
  const Outcome text = run("climate " + kKerAvel);
  ASSERT_EQ(text.status, 0) << text.err;
  ASSERT_EQ(months.size(), 12u);
  for (const char* key : {"month", "tmax_c", "tmin_c", "rain_mm", "wet_days", "sunshine_h_per_day",
                          "global_mj_m2_d", "dli_mol_m2_d", "origin", "plus_minus"})
    EXPECT_TRUE(months[0].contains(key)) << key;
  char june[16];
  std::snprintf(june, sizeof june, "%.1f", months[5]["global_mj_m2_d"].get<double>());
  const std::string line = text.out.substr(text.out.find("radiation, MJ/m²"));
  EXPECT_NE(line.substr(0, line.find('\n')).find(june), std::string::npos);
  for (const char* part : {"highest, °C", "give or take", "Jan", "Brest-Guipavas", "5 km"})
    EXPECT_NE(text.out.find(part), std::string::npos) << part;
}

TEST_F(Climate, KeysOfTheDesignAreThere) {
  const json all = climate(kKerAvel);
  EXPECT_TRUE(all["frost"].is_null());
  EXPECT_TRUE(all["notes"].is_array());
  ASSERT_FALSE(all["stations"].empty());
  for (const char* key : {"id", "name", "country", "distance_km", "height_above_m", "weights"})
    EXPECT_TRUE(all["stations"][0].contains(key)) << key;
  double weights = 0;
  for (const json& station : all["stations"]) weights += station["weights"].value("tmax_c", 0.0);
  EXPECT_NEAR(weights, 1, 1e-12);
}

TEST_F(Climate, TheYearIsTheSumOfItsMonths) {
  const json all = climate(kKerAvel);
  const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  double sum = 0;
  for (std::size_t m = 0; m < 12; ++m)
    sum += all["months"][m]["global_mj_m2_d"].get<double>() * days[m];
  EXPECT_NEAR(all["year"]["global_mj_m2"].get<double>(), sum, 1e-9 * sum);
}

TEST_F(Climate, TheOpenGetsTheLightOfItsRadiation) {
  for (const json& month : climate(kKerAvel)["months"])
    EXPECT_NEAR(month["dli_mol_m2_d"].get<double>(), 2.018 * month["global_mj_m2_d"].get<double>(),
                0.01 * month["dli_mol_m2_d"].get<double>());
}

TEST_F(Climate, BeginsInJulyInTheSouth) {
  const std::string south = run("climate " SPADEWORK_SOURCE_DIR "/examples/tussock-bend.toml").out;
  EXPECT_LT(south.find("Jul"), south.find("Jan"));
  const std::string north = run("climate " + kKerAvel).out;
  EXPECT_LT(north.find("Jan"), north.find("Jul"));
}

TEST_F(Climate, SpeaksInFahrenheitAndInchesWhenAsked) {
  const json months = climate(kKerAvel)["months"];
  const Outcome text = run("climate " + kKerAvel + " --units imperial");
  EXPECT_NE(text.out.find("highest, °F"), std::string::npos);
  EXPECT_NE(text.out.find("rain, inches"), std::string::npos);
  EXPECT_NE(text.out.find("miles"), std::string::npos);
  const std::string line = text.out.substr(text.out.find("highest, °F"));
  char june[16];
  std::snprintf(june, sizeof june, "%.0f", 32 + 1.8 * months[5]["tmax_c"].get<double>());
  EXPECT_NE(line.substr(0, line.find('\n')).find(june), std::string::npos);
  // JSON is metric whatever is asked for.
  const Outcome same = run("climate " + kKerAvel + " --units imperial --json");
  EXPECT_EQ(json::parse(same.out)["months"], months);
}

TEST_F(Climate, OfAWeatherFileIsItsMonthsWhereItHasThem) {
  fetch("dublin/dublin_1991_2020_jan_feb_jul.csv");
  const json all = climate(dublin(kDublinFile));
  // means.csv beside the file: the mean of the days' highest temperatures of July, and rain.
  std::ifstream means(kWeather / "dublin/means.csv");
  std::string header, line;
  std::getline(means, header);
  int compared = 0;
  while (std::getline(means, line)) {
    std::stringstream cells(line);
    std::string month, tmax;
    std::getline(cells, month, ',');
    std::getline(cells, tmax, ',');
    const json& here = all["months"][static_cast<std::size_t>(std::stoi(month)) - 1];
    EXPECT_NEAR(here["tmax_c"].get<double>(), std::stod(tmax), 0.02) << header;
    EXPECT_EQ(here["origin"]["tmax_c"], "weather_file");
    ++compared;
  }
  EXPECT_EQ(compared, 3);
  EXPECT_EQ(all["months"][3]["origin"]["tmax_c"], "stations");
  EXPECT_EQ(all["weather_file"]["name"], "dublin_1991_2020_jan_feb_jul.csv");
  EXPECT_EQ(run("findings " + (folder_ / "garden.toml").string() + " --json").status, 0);
}

TEST_F(Climate, OwnMonthsHaveTheFirstWord) {
  fetch("dublin/dublin_1991_2020_jan_feb_jul.csv");
  const std::string file = dublin(std::string(kDublinFile) +
                                  "\n[[climate.month]]\nmonth = 7\ntmax_c = 21.5\n"
                                  "sunshine_h_per_day = 6.25\nrain_mm = 44\n");
  const json july = climate(file)["months"][6];
  EXPECT_EQ(july["tmax_c"], 21.5);
  EXPECT_EQ(july["sunshine_h_per_day"], 6.25);
  EXPECT_EQ(july["rain_mm"], 44);
  EXPECT_EQ(july["origin"]["tmax_c"], "own_month");
  EXPECT_EQ(july["origin"]["tmin_c"], "weather_file");
  EXPECT_EQ(july["plus_minus"]["tmax_c"], 0);
  const Outcome why = run("why " + file + " /climate/months/6/dli_mol_m2_d");
  EXPECT_NE(why.out.find("garden.toml:13:1"), std::string::npos) << why.out;  // sunshine's line
}

TEST_F(Climate, ANamedStationSpeaksAlone) {
  const std::string file = dublin("[climate]\nstation = \"03969\"");
  const json all = climate(file);
  for (const json& station : all["stations"]) {
    if (station["weights"].contains("tmax_c")) {
      EXPECT_EQ(station["id"], "03969");
      EXPECT_EQ(station["weights"]["tmax_c"], 1);
    }
  }
  EXPECT_NE(run("climate " + file).out.find("the station that you name"), std::string::npos);
}

TEST_F(Climate, AnUnknownStationIsTheDocumentsErrorInEveryVerb) {
  const std::string file = dublin("[climate]\nstation = \"0396\"");
  for (const char* verb : {"climate", "light", "check", "findings"}) {
    const Outcome outcome = run(std::string(verb) + " " + file);
    EXPECT_EQ(outcome.status, 1) << verb;
    EXPECT_NE(outcome.err.find("garden.toml:9:11"), std::string::npos) << verb << outcome.err;
    EXPECT_NE(outcome.err.find("03969"), std::string::npos) << verb;
  }
  const json problems = json::parse(run("check --json " + file).out)["problems"];
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0]["code"], "unknown_id");
}

TEST_F(Climate, ABrokenWeatherFileIsToldWithItsLine) {
  write("days.csv", "date,tmax_c\n2001-01-01,5\n2001-01-02,hot\n");
  const std::string file = dublin("[climate]\nweather_file = \"days.csv\"");
  for (const char* verb : {"climate", "light", "check", "findings"}) {
    const Outcome outcome = run(std::string(verb) + " " + file);
    EXPECT_EQ(outcome.status, 1) << verb;
    EXPECT_NE(outcome.err.find("days.csv:3:12"), std::string::npos) << verb << outcome.err;
  }
  const json problems = json::parse(run("check --json " + file).out)["problems"];
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0]["where"], "days.csv:3:12");
}

TEST_F(Climate, AMissingWeatherFileIsStatus3AndNamed) {
  const std::string file = dublin("[climate]\nweather_file = \"none.epw\"");
  for (const char* verb : {"climate", "light", "check", "findings"}) {
    const Outcome outcome = run(std::string(verb) + " " + file);
    EXPECT_EQ(outcome.status, 3) << verb;
    EXPECT_NE(outcome.err.find("none.epw"), std::string::npos) << verb;
    EXPECT_NE(outcome.err.find("climate.weather_file"), std::string::npos) << verb;
  }
}

TEST_F(Climate, AWeatherFileOfAnotherPlaceIsAFinding) {
  fetch("denver/denver_tmy3_thinned.epw");
  const std::string file = dublin("[climate]\nweather_file = \"denver_tmy3_thinned.epw\"");
  const json findings = json::parse(run("findings --json " + file).out)["findings"];
  ASSERT_GE(findings.size(), 2u);
  const auto says = [&](const std::string& words) {
    return std::any_of(findings.begin(), findings.end(), [&](const json& finding) {
      return finding["says"].get<std::string>().find(words) != std::string::npos;
    });
  };
  EXPECT_TRUE(says("km from the garden")) << findings;
  EXPECT_TRUE(says("where a clear sky gives")) << findings;  // the high plains are brighter
  for (const json& finding : findings) {
    EXPECT_EQ(finding["grade"], "should");
    EXPECT_FALSE(finding["numbers"].empty());
    EXPECT_FALSE(finding["sources"].empty());
    EXPECT_FALSE(finding["mend"].empty());
  }
  const Outcome check = run("check " + file);
  EXPECT_EQ(check.status, 0);
  EXPECT_NE(check.out.find("findings"), std::string::npos);
}

TEST_F(Climate, AWeatherFileWithoutAWholeMonthIsAFindingAndToldOnce) {
  write("day.csv", "date,tmax_c,tmin_c\n2020-01-01,5,1\n2020-01-02,,\n");
  const std::string file = dublin("[climate]\nweather_file = \"day.csv\"");
  const json findings = json::parse(run("findings --json " + file).out)["findings"];
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0]["grade"], "should");
  EXPECT_NE(findings[0]["says"].get<std::string>().find("no whole month of anything"),
            std::string::npos);
  const json notes = climate(file)["notes"];
  EXPECT_EQ(notes.size(), 2u) << notes;  // that, and the day without figures
  EXPECT_EQ(notes.dump().find("The file has no"), std::string::npos) << notes;
}

/// The sign of the longitude is soon lost.
TEST_F(Climate, ClocksThatDoNotFitTheLongitudeAreAFinding) {
  const auto findings = [&](const std::string& longitude, const std::string& zone) {
    return json::parse(
        run("findings --json " + garden("latitude_deg = 45\nelevation_m = 200\n"
                                        "longitude_deg = " +
                                            longitude + "\ntime_zone = \"" + zone + "\"",
                                        ""))
            .out)["findings"];
  };
  const json odd = findings("93", "America/Chicago");
  ASSERT_FALSE(odd.empty());
  EXPECT_EQ(odd[0]["grade"], "should");
  EXPECT_NE(odd[0]["says"].get<std::string>().find("93.00° east stands highest at 23:48"),
            std::string::npos)
      << odd[0]["says"];
  for (const auto& [longitude, zone] :
       {std::pair("-93", "America/Chicago"), std::pair("76", "Asia/Shanghai"),
        std::pair("-157", "Pacific/Kiritimati"), std::pair("2", "UTC")})
    for (const json& finding : findings(longitude, zone))
      EXPECT_NE(finding["about"][0], "garden") << zone << finding["says"];
}

TEST_F(Climate, APlaceFarFromAnyStationIsAFinding) {
  const std::string file =
      garden("latitude_deg = -40\nlongitude_deg = -100\nelevation_m = 5\ntime_zone = \"UTC\"", "");
  const json findings = json::parse(run("findings --json " + file).out)["findings"];
  ASSERT_EQ(findings.size(), 2u);
  for (const json& finding : findings) {
    EXPECT_EQ(finding["grade"], "note");
    EXPECT_NE(finding["says"].get<std::string>().find("km away"), std::string::npos);
    EXPECT_GT(finding["numbers"][0]["value"].get<double>(), 1000);
    EXPECT_FALSE(finding["mend"].empty());
  }
  // Near stations there is nothing to tell.
  EXPECT_TRUE(json::parse(run("findings --json " + dublin("")).out)["findings"].empty());
}

/// Its words with one space between them.
std::string one_line(const std::string& text) {
  std::istringstream words(text);
  std::string out, word;
  while (words >> word) out += (out.empty() ? "" : " ") + word;
  return out;
}

/// It once said “from 6 weather stations” whatever the months came from.
TEST_F(Climate, LightSaysWhereItsMonthsComeFrom) {
  std::string all;
  for (int m = 1; m <= 12; ++m)
    all += "[[climate.month]]\nmonth = " + std::to_string(m) + "\nsunshine_h_per_day = 4\n";
  const std::string own = one_line(run("light " + dublin(all)).out);
  EXPECT_NE(own.find("from sun and sky together, from your own months."), std::string::npos);
  EXPECT_EQ(own.find("weather stations"), std::string::npos) << own;

  fetch("dublin/dublin_1991_2020_jan_feb_jul.csv");
  const std::string mixed =
      one_line(run("light " + dublin(std::string(kDublinFile) + "\n[[climate.month]]\nmonth = 7\n"
                                                                "sunshine_h_per_day = 6.25\n"))
                   .out);
  for (const char* part :
       {"; in July from your own months;",
        "; in January and February from dublin_1991_2020_jan_feb_jul.csv;",
        "; and in the other months from 6 weather stations, the nearest Dublin Airp. (3 km)."})
    EXPECT_NE(mixed.find(part), std::string::npos) << part << "\n" << mixed;

  const std::string stations = one_line(run("light " + dublin("")).out);
  EXPECT_NE(stations.find("together, from 6 weather stations, the nearest"), std::string::npos);
  const std::string named = one_line(run("light " + dublin("[climate]\nstation = \"03969\"")).out);
  EXPECT_NE(named.find("from the station that you name, Dublin Airp. (3 km)"), std::string::npos);
}

TEST_F(Climate, FarFromAllStationsNothingSaysHowSureItIs) {
  const std::string file =
      garden("latitude_deg = -40\nlongitude_deg = -120\nelevation_m = 5\ntime_zone = \"UTC\"", "");
  const json all = climate(file);
  EXPECT_TRUE(all["year"]["plus_minus"]["global_mj_m2"].is_null());
  EXPECT_TRUE(all["months"][5]["plus_minus"]["tmax_c"].is_null());
  for (const char* verb : {"climate", "light", "findings"}) {
    const std::string text = one_line(run(std::string(verb) + " " + file).out);
    EXPECT_NE(text.find("near enough to say"), std::string::npos) << verb;
    EXPECT_EQ(text.find("±"), std::string::npos) << verb << text;
  }
  for (const char* pointer :
       {"/climate/months/5/plus_minus/tmax_c", "/climate/months/5/plus_minus/dli_mol_m2_d",
        "/climate/year/plus_minus/global_mj_m2"}) {
    const json trace = json::parse(run("why " + file + " " + pointer + " --json").out);
    EXPECT_TRUE(trace["value"].is_null()) << pointer;
    EXPECT_NE(trace["says"].get<std::string>().find("near enough"), std::string::npos) << pointer;
  }
}

TEST_F(Climate, NotesFindingsAndWhyAreInMilesAndFahrenheitWhenAsked) {
  const std::string file =
      garden("latitude_deg = -40\nlongitude_deg = -100\ntime_zone = \"UTC\"", "");
  for (const std::string verb : {"light", "climate", "findings"}) {
    const std::string text = one_line(run(verb + " " + file + " --units imperial").out);
    EXPECT_NE(text.find(" miles away"), std::string::npos) << verb;
    EXPECT_EQ(text.find(" km"), std::string::npos) << verb << text;
    EXPECT_EQ(text.find(" °C"), std::string::npos) << verb << text;
  }
  const std::string why = run("why " + file + " /climate/months/6/tmax_c --units imperial").out;
  EXPECT_NE(why.find(" °F"), std::string::npos) << why;
  EXPECT_NE(why.find(" ft higher"), std::string::npos) << why;
  EXPECT_EQ(why.find("°C"), std::string::npos) << why;
  // JSON is metric whatever is asked for, its sentences too.
  for (const std::string verb : {"climate", "findings"})
    EXPECT_EQ(run(verb + " " + file + " --units imperial --json").out,
              run(verb + " " + file + " --json").out);
}

/// The sun's beam, leaves and weather once took different heights where none was given.
TEST_F(Climate, LightTakesTheHeightOfTheStationsWhereNoneIsGivenAndSaysSo) {
  const std::string place = "latitude_deg = 47.4\nlongitude_deg = 8.5\ntime_zone = \"UTC\"";
  std::string file = garden(place, "");
  const json without = json::parse(run("light " + file + " --json").out)["places"];
  const json trace =
      json::parse(run("why " + file + " /light/places/bed/months/0/sun_h_per_day --json").out);
  json height;
  for (const json& link : trace["inputs"][0]["inputs"])
    if (link["name"] == "garden.elevation_m") height = link;
  EXPECT_GT(height["value"].get<double>(), 300) << "the Swiss midland";
  EXPECT_EQ(height["standing"], "assumed");
  EXPECT_NE(height["method"].get<std::string>().find("stations around"), std::string::npos);
  char given[64];
  std::snprintf(given, sizeof given, "\nelevation_m = %.9f", height["value"].get<double>());
  file = garden(place + given, "");
  const json with = json::parse(run("light " + file + " --json").out)["places"];
  for (std::size_t m = 0; m < 12; ++m)
    for (const char* key : {"sun_h_per_day", "dli_mol_m2_d"})
      EXPECT_NEAR(without[0]["months"][m][key].get<double>(),
                  with[0]["months"][m][key].get<double>(), 1e-6);
}

TEST_F(Climate, APlacesOwnBoardsAndRoofAreToldAsItsOwn) {
  const std::string file = dublin(
      "[[bed]]\nid = \"deep\"\nat = [9, 0]\nsize = [2, 1]\nboards = { height = \"300 mm\" }\n"
      "[[seat]]\nid = \"bench\"\nat = [4, 0]\nfacing = [0, 0]\nsize = [1.5, 0.6]\n"
      "roof = { height_m = 2.1, overhang_m = 0.3 }\n");
  const std::string text = run("light " + file).out;
  EXPECT_NE(text.find("One alone gone gives back: its own boards "), std::string::npos) << text;
  EXPECT_NE(text.find("One alone gone gives back: itself "), std::string::npos) << text;
  EXPECT_EQ(text.find("deep 1"), std::string::npos) << text;
  const json places = json::parse(run("light " + file + " --json").out)["places"];
  EXPECT_EQ(places[0]["takers"][0]["id"], "deep");
  const std::string why =
      run("why " + file + " /light/places/bench/takers/bench/sun_h_per_year").out;
  EXPECT_NE(why.find("sun that bench takes from itself in a year"), std::string::npos) << why;
}

}  // namespace
}  // namespace spadework::testing
