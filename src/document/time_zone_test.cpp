// Time zones against what the tz database publishes and against the C library, which reads the same
// database by code of its own.
#include "document/time_zone.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <map>

#include "base/random.h"

namespace spadework::document {
namespace {

UtcTime utc(int year, unsigned month, unsigned day, double hour) {
  return {utc_midnight(make_date(year, month, day)).unix_s + 3600 * hour};
}

TimeZone zone(const char* name) {
  auto loaded = load_time_zone(name);
  EXPECT_TRUE(loaded.has_value()) << name << ": " << (loaded ? "" : loaded.error().message);
  return loaded.value_or(TimeZone{});
}

/// A change of clocks: the offset just before and from then on.
void expect_change(const TimeZone& in, UtcTime at, double before_h, double after_h) {
  EXPECT_EQ(in.offset_s({at.unix_s - 1}), before_h * 3600) << in.name();
  EXPECT_EQ(in.offset_s(at), after_h * 3600) << in.name();
}

bool daylight_saving(const TimeZone& in, UtcTime t) {
  bool out = false;
  for (const TimeZone::Period& period : in.periods()) {
    if (period.since <= t) out = period.daylight_saving;
  }
  return out;
}

// Directive 2000/84/EC: last Sundays of March and October, 01:00 UTC.
TEST(Paris, ChangesItsClocksOnTheLastSundaysOfMarchAndOctober) {
  const TimeZone paris = zone("Europe/Paris");
  EXPECT_EQ(paris.name(), "Europe/Paris");
  expect_change(paris, utc(2026, 3, 29, 1), 1, 2);
  expect_change(paris, utc(2026, 10, 25, 1), 2, 1);
  expect_change(paris, utc(2050, 3, 27, 1), 1, 2);
  expect_change(paris, utc(2050, 10, 30, 1), 2, 1);
  EXPECT_TRUE(daylight_saving(paris, utc(2026, 7, 1, 0)));
  EXPECT_FALSE(daylight_saving(paris, utc(2026, 1, 1, 0)));
}

// 15 U.S.C. 260a: second Sunday of March to first Sunday of November, 02:00 local time.
TEST(NewYork, ChangesItsClocksAtTwoLocalTime) {
  const TimeZone new_york = zone("America/New_York");
  expect_change(new_york, utc(2026, 3, 8, 7), -5, -4);
  expect_change(new_york, utc(2026, 11, 1, 6), -4, -5);
  expect_change(new_york, utc(2006, 4, 2, 7), -5, -4);  // before the Act of 2005 took force
}

// New Zealand Daylight Time Order 2007: last Sunday of September to first Sunday of April, 02:00
// standard time.
TEST(Auckland, SavesDaylightOverTheNewYear) {
  const TimeZone auckland = zone("Pacific/Auckland");
  expect_change(auckland, utc(2026, 4, 4, 14), 13, 12);
  expect_change(auckland, utc(2026, 9, 26, 14), 12, 13);
  EXPECT_TRUE(daylight_saving(auckland, utc(2026, 1, 1, 0)));
  EXPECT_FALSE(daylight_saving(auckland, utc(2026, 7, 1, 0)));
}

TEST(Kolkata, NeverChangesItsClocks) {
  const TimeZone kolkata = zone("Asia/Kolkata");
  for (int year = 1990; year <= 2060; ++year) {
    EXPECT_EQ(kolkata.offset_s(utc(year, 1, 1, 0)), 5.5 * 3600);
    EXPECT_EQ(kolkata.offset_s(utc(year, 7, 1, 0)), 5.5 * 3600);
  }
}

// In Ireland winter time is the exception by law; clocks are forward in summer all the same.
TEST(Dublin, SavesDaylightInSummer) {
  const TimeZone dublin = zone("Europe/Dublin");
  EXPECT_EQ(dublin.offset_s(utc(2026, 7, 1, 0)), 3600);
  EXPECT_TRUE(daylight_saving(dublin, utc(2026, 7, 1, 0)));
  EXPECT_FALSE(daylight_saving(dublin, utc(2026, 1, 1, 0)));
}

TEST(ALinkedName, IsTheZoneThatItLinksTo) {
  const std::pair<const char*, const char*> links[] = {{"GB", "Europe/London"},
                                                       {"US/Eastern", "America/New_York"},
                                                       {"NZ", "Pacific/Auckland"},
                                                       {"Asia/Calcutta", "Asia/Kolkata"}};
  for (const auto& [link, name] : links) {
    const TimeZone linked = zone(link), named = zone(name);
    for (int month = 1; month <= 12; ++month) {
      const UtcTime t = utc(2026, static_cast<unsigned>(month), 15, 12);
      EXPECT_EQ(linked.offset_s(t), named.offset_s(t)) << link;
    }
  }
}

TEST(Utc, HasNoOffset) {
  EXPECT_EQ(zone("UTC").offset_s(utc(2026, 7, 1, 0)), 0);
  EXPECT_EQ(zone("Etc/GMT+5").offset_s(utc(2026, 7, 1, 0)), -5 * 3600);
}

TEST(AnUnknownName, IsToldWithTheNearest) {
  const std::pair<const char*, const char*> names[] = {{"Europe/Pariss", "Europe/Paris"},
                                                       {"europe/paris", "Europe/Paris"},
                                                       {"Paris", "Europe/Paris"},
                                                       {"America/New York", "America/New_York"},
                                                       {"Europe/Auckland", "Auckland"}};
  for (const auto& [typed, near] : names) {
    const auto loaded = load_time_zone(typed);
    ASSERT_FALSE(loaded.has_value()) << typed;
    EXPECT_EQ(loaded.error().code, ErrorCode::kUnknownKind);
    EXPECT_NE(loaded.error().message.find(typed), std::string::npos);
    EXPECT_NE(loaded.error().hint.find(near), std::string::npos) << loaded.error().hint;
  }
}

TEST(AnUnknownName, CannotReachOtherFiles) {
  for (const std::string& typed :
       {std::string(), std::string("../../etc/passwd"), std::string("/etc/passwd"),
        std::string("Europe/../Europe/Paris"), std::string("Europe"), std::string("tzdata.zi"),
        std::string("zone.tab"), std::string("Europe/Paris\0x", 14), std::string(100'000, 'x')}) {
    const auto loaded = load_time_zone(typed);
    ASSERT_FALSE(loaded.has_value()) << typed.substr(0, 80);
    EXPECT_EQ(loaded.error().code, ErrorCode::kUnknownKind);
    EXPECT_FALSE(loaded.error().hint.empty());
  }
}

/// The offset by the C library, for one zone after the other.
class CLibrary {
 public:
  CLibrary() {
    if (const char* set = std::getenv("TZ")) before_ = set;
  }
  ~CLibrary() {
    if (before_.empty()) {
      unsetenv("TZ");
    } else {
      setenv("TZ", before_.c_str(), 1);
    }
    tzset();
  }
  static long offset_s(const std::string& name, std::time_t t) {
    setenv("TZ", name.c_str(), 1);
    tzset();
    std::tm local{};
    localtime_r(&t, &local);
    return local.tm_gmtoff;
  }

 private:
  std::string before_;
};

TEST(OffsetsFromUtc, AgreeWithTheCLibrary) {
  const CLibrary library;
  const auto names = time_zone_names().value();
  ASSERT_GT(names.size(), 300u);
  Random random(20260301);
  const auto first = static_cast<std::time_t>(utc(1990, 1, 1, 0).unix_s);
  const auto last = static_cast<std::time_t>(utc(2036, 12, 31, 0).unix_s);
  const char* usual[] = {"Europe/Paris",  "America/New_York",    "Pacific/Auckland", "Asia/Kolkata",
                         "Europe/Dublin", "Australia/Lord_Howe", "America/Sao_Paulo"};
  for (int i = 0; i < 200; ++i) {
    const std::string name =
        i % 2 == 0 ? std::string(usual[static_cast<std::size_t>(random.below(7))])
                   : names[static_cast<std::size_t>(random.below(static_cast<int>(names.size())))];
    const TimeZone loaded = zone(name.c_str());
    for (int k = 0; k < 5; ++k) {
      const auto t =
          first + static_cast<std::time_t>(random.unit() * static_cast<double>(last - first));
      EXPECT_EQ(loaded.offset_s({static_cast<double>(t)}), CLibrary::offset_s(name, t))
          << name << " at " << t;
    }
  }
}

TEST(OffsetsFromUtc, AgreeWithTheCLibraryUpTo2060) {
  const CLibrary library;
  for (const char* name : {"Europe/Paris", "America/New_York", "Pacific/Auckland", "Asia/Kolkata",
                           "America/Santiago", "Europe/Dublin"}) {
    const TimeZone loaded = zone(name);
    for (int year = 2037; year <= 2060; ++year) {
      for (unsigned month = 1; month <= 12; ++month) {
        const UtcTime t = utc(year, month, 15, 12);
        EXPECT_EQ(loaded.offset_s(t), CLibrary::offset_s(name, static_cast<std::time_t>(t.unix_s)))
            << name << " " << year << "-" << month;
      }
    }
  }
}

TEST(ARuleForLater, GivesItsClockChanges) {
  const auto periods = periods_of_rule("CET-1CEST,M3.5.0,M10.5.0/3", utc(2037, 12, 1, 0), 2038);
  ASSERT_EQ(periods.size(), 2u);
  EXPECT_EQ(periods[0].since.unix_s, utc(2038, 3, 28, 1).unix_s);
  EXPECT_EQ(periods[0].offset_s, 7200);
  EXPECT_TRUE(periods[0].daylight_saving);
  EXPECT_EQ(periods[1].since.unix_s, utc(2038, 10, 31, 1).unix_s);
  EXPECT_EQ(periods[1].offset_s, 3600);
  for (const char* none : {"", "IST-5:30", "<+08>-8", "CET-1CEST,M13.5.0,M10.5.0", "nonsense,,,"}) {
    EXPECT_TRUE(periods_of_rule(none, utc(2037, 12, 1, 0), 2038).empty()) << none;
  }
}

}  // namespace
}  // namespace spadework::document
