#include "base/base.h"

#include <gtest/gtest.h>

#include <vector>

#include "base/digest.h"

namespace spadework {
namespace {

TEST(Quantity, ConvertsOnceAtTheEdge) {
  EXPECT_DOUBLE_EQ(in_millimetres(metres(1.2) + millimetres(30)), 1230);
  EXPECT_DOUBLE_EQ(in_degrees(degrees(48.41)), 48.41);
  EXPECT_DOUBLE_EQ(in_square_metres(metres(3) * metres(1.2)), 3.6);
  EXPECT_DOUBLE_EQ(in_kelvins(celsius(21) - celsius(4)), 17);
  EXPECT_DOUBLE_EQ(in_litres(cubic_metres(0.25)), 250);
}

TEST(Measures, AreToldInMilesFeetAndFahrenheit) {
  EXPECT_EQ(far_says(metres(412300), Units::kMetric), "412 km");
  EXPECT_EQ(far_says(metres(16093.44), Units::kImperial), "10 miles");
  EXPECT_EQ(length_says(metres(1.524), Units::kMetric, 2), "1.52 m");
  EXPECT_EQ(length_says(metres(1.524), Units::kImperial, 2), "5.0 ft");
  EXPECT_EQ(area_says(square_metres(9.290304), Units::kImperial), "100 sq ft");
  EXPECT_EQ(warmth_says(celsius(-40), Units::kImperial), "-40.0 °F");
  EXPECT_EQ(warmer_says(kelvins(5), Units::kImperial), "9.0 °F");
}

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
static_assert(Addable<Length, Length>);
static_assert(!Addable<Length, Angle>, "metres and degrees do not mix");
static_assert(!Addable<Temperature, Temperature>, "two temperatures do not add");

// The calendar days and their numbers are facts of the Gregorian calendar.
TEST(Date, NumbersTheDaysOfTheYear) {
  EXPECT_EQ(day_of_year(make_date(2026, 1, 1)), 1);
  EXPECT_EQ(day_of_year(make_date(2026, 12, 31)), 365);
  EXPECT_EQ(day_of_year(make_date(2024, 12, 31)), 366);
  EXPECT_EQ(iso_date(date_of_day(2026, 60)), "2026-03-01");
  EXPECT_EQ(iso_date(date_of_day(2024, 60)), "2024-02-29");
  EXPECT_EQ(days_in_month(2024, 2), 29);
}

TEST(Date, RefusesWhatIsNoDay) {
  EXPECT_FALSE(parse_date("2026-02-29"));
  EXPECT_FALSE(parse_date("2026-2-9"));
  EXPECT_FALSE(parse_date("2026-13-01"));
  EXPECT_FALSE(parse_month_day("02-29"));
  EXPECT_TRUE(parse_date("2024-02-29"));
  EXPECT_TRUE(parse_month_day("06-21"));
}

/// Paris in 2026: summer time from 29 March 01:00 UTC to 25 October 01:00 UTC. Source: the rule of
/// the European Union since 1996, last Sundays of March and October.
TimeZone paris() {
  return TimeZone("Europe/Paris",
                  {{UtcTime{utc_midnight(make_date(2025, 10, 26)).unix_s + 3600}, 3600, false},
                   {UtcTime{utc_midnight(make_date(2026, 3, 29)).unix_s + 3600}, 7200, true},
                   {UtcTime{utc_midnight(make_date(2026, 10, 25)).unix_s + 3600}, 3600, false}});
}

TEST(TimeZone, TurnsClockTimesIntoInstantsAndBack) {
  const TimeZone zone = paris();
  const LocalDate june = make_date(2026, 6, 21), january = make_date(2026, 1, 21);
  EXPECT_DOUBLE_EQ(zone.at_clock(june, 12).unix_s, utc_midnight(june).unix_s + 10 * 3600);
  EXPECT_DOUBLE_EQ(zone.at_clock(january, 12).unix_s, utc_midnight(january).unix_s + 11 * 3600);
  EXPECT_DOUBLE_EQ(zone.clock_hour(june, zone.at_clock(june, 16.5)), 16.5);
}

TEST(TimeZone, GivesTheFirstOfATimeThatComesTwiceAndTheEndOfAGap) {
  const TimeZone zone = paris();
  const LocalDate spring = make_date(2026, 3, 29), autumn = make_date(2026, 10, 25);
  // 02:30 is skipped in spring: clocks go from 02:00 to 03:00 at 01:00 UTC.
  EXPECT_DOUBLE_EQ(zone.at_clock(spring, 2.5).unix_s, utc_midnight(spring).unix_s + 3600);
  // 02:30 comes twice in autumn: first at 00:30 UTC, in summer time.
  EXPECT_DOUBLE_EQ(zone.at_clock(autumn, 2.5).unix_s, utc_midnight(autumn).unix_s + 1800);
}

TEST(ClockText, RoundsAndCarries) {
  EXPECT_EQ(clock_text(13 + 20.0 / 60 + 5.4 / 3600, true), "13:20:05");
  EXPECT_EQ(clock_text(7.9999, false), "08:00");
  EXPECT_EQ(clock_text(24, false), "24:00");
}

// Distances from the definition of optimal string alignment. Source: [damerau]
TEST(SlipsBetween, CountsEachSlipOnce) {
  EXPECT_EQ(slips_between("hieght", "height"), 1);  // neighbours swapped
  EXPECT_EQ(slips_between("heigt", "height"), 1);
  EXPECT_EQ(slips_between("kitten", "sitting"), 3);
  EXPECT_EQ(slips_between("", "abc"), 3);
}

TEST(NearestWord, FindsWhatWasMeantAndNothingElse) {
  const std::vector<std::string> keys{"height_m", "thickness_m", "light_through"};
  EXPECT_EQ(nearest_word("hieght_m", keys), "height_m");
  EXPECT_EQ(nearest_word("height", keys), "height_m");
  EXPECT_EQ(nearest_word("Light-Through", keys), "light_through");
  EXPECT_EQ(nearest_word("colour", keys), "");
  EXPECT_EQ(nearest_word("", keys), "");
}

TEST(ListWords, ReadsAloud) {
  EXPECT_EQ(list_words({}), "");
  EXPECT_EQ(list_words({"brick"}), "brick");
  EXPECT_EQ(list_words({"brick", "stone", "hurdle"}), "brick, stone or hurdle");
  EXPECT_EQ(list_words({"a", "b"}, "and"), "a and b");
}

TEST(ErrorCodes, EachHasNameMeaningAndExitStatus) {
  std::vector<std::string_view> names;
  for (const ErrorCode code : all_error_codes()) {
    EXPECT_FALSE(code_meaning(code).empty());
    EXPECT_GE(exit_status(code), 1);
    EXPECT_LE(exit_status(code), 4);
    for (const std::string_view name : names) EXPECT_NE(name, code_name(code));
    names.push_back(code_name(code));
  }
}

// The first outputs of SplitMix64 from seed 1234567, as printed in published test vectors of the
// algorithm. Source: [splitmix]
TEST(Random, GivesThePublishedSequence) {
  Random random(1234567);
  EXPECT_EQ(random.next(), 6457827717110365317ULL);
  EXPECT_EQ(random.next(), 3203168211198807973ULL);
  EXPECT_EQ(random.next(), 9817491932198370423ULL);
}

TEST(ParallelFor, DoesEachOnceOnAnyNumberOfThreads) {
  for (const int threads : {1, 2, 7}) {
    std::vector<int> done(100, 0);
    parallel_for(100, threads, [&](int i) { ++done[static_cast<std::size_t>(i)]; });
    EXPECT_EQ(done, std::vector<int>(100, 1));
  }
  parallel_for(0, 4, [](int) { FAIL(); });
}

TEST(Digest, TellsNeighboursApart) {
  EXPECT_EQ(Digest().add("ab").add("c").hex(), Digest().add("ab").add("c").hex());
  EXPECT_NE(Digest().add("ab").add("c").hex(), Digest().add("a").add("bc").hex());
  EXPECT_NE(Digest().add(1.0).hex(), Digest().add(2.0).hex());
}

TEST(SwCheck, StopsAndPrintsBothValues) {
  EXPECT_DEATH(SW_CHECK_EQ(1 + 1, 3), "1 \\+ 1 == 3.*2 and 3");
}

}  // namespace
}  // namespace spadework
