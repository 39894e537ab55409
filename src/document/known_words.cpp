#include "document/known_words.h"

#include <cctype>
#include <set>
#include <utility>

namespace spadework::document {
namespace {

std::string plain(std::string_view word) {
  std::string out;
  for (const char c : word) {
    if (c == ' ' || c == '-' || c == '_') continue;
    out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

}  // namespace

KnownWords known_words(std::map<std::string, std::vector<std::string>> lists) {
  std::map<std::string, std::set<std::string>> names;
  for (const auto& [catalogue, words] : lists) {
    for (const std::string& word : words) names[catalogue].insert(plain(word));
  }
  KnownWords out;
  out.knows = [names = std::move(names)](std::string_view catalogue, std::string_view word) {
    const auto list = names.find(std::string(catalogue));
    return list != names.end() && list->second.count(plain(word)) > 0;
  };
  out.words_of = [lists = std::move(lists)](std::string_view catalogue) {
    const auto list = lists.find(std::string(catalogue));
    return list == lists.end() ? std::vector<std::string>{} : list->second;
  };
  return out;
}

const std::vector<std::string>& currency_codes() {
  static const std::vector<std::string> codes = {
      "AED", "AFN", "ALL", "AMD", "AOA", "ARS", "AUD", "AWG", "AZN", "BAM", "BBD", "BDT", "BGN",
      "BHD", "BIF", "BMD", "BND", "BOB", "BRL", "BSD", "BTN", "BWP", "BYN", "BZD", "CAD", "CDF",
      "CHF", "CLP", "CNY", "COP", "CRC", "CUP", "CVE", "CZK", "DJF", "DKK", "DOP", "DZD", "EGP",
      "ERN", "ETB", "EUR", "FJD", "FKP", "GBP", "GEL", "GHS", "GIP", "GMD", "GNF", "GTQ", "GYD",
      "HKD", "HNL", "HTG", "HUF", "IDR", "ILS", "INR", "IQD", "IRR", "ISK", "JMD", "JOD", "JPY",
      "KES", "KGS", "KHR", "KMF", "KPW", "KRW", "KWD", "KYD", "KZT", "LAK", "LBP", "LKR", "LRD",
      "LSL", "LYD", "MAD", "MDL", "MGA", "MKD", "MMK", "MNT", "MOP", "MRU", "MUR", "MVR", "MWK",
      "MXN", "MYR", "MZN", "NAD", "NGN", "NIO", "NOK", "NPR", "NZD", "OMR", "PAB", "PEN", "PGK",
      "PHP", "PKR", "PLN", "PYG", "QAR", "RON", "RSD", "RUB", "RWF", "SAR", "SBD", "SCR", "SDG",
      "SEK", "SGD", "SHP", "SLE", "SOS", "SRD", "SSP", "STN", "SVC", "SYP", "SZL", "THB", "TJS",
      "TMT", "TND", "TOP", "TRY", "TTD", "TWD", "TZS", "UAH", "UGX", "USD", "UYU", "UZS", "VED",
      "VES", "VND", "VUV", "WST", "XAF", "XCD", "XCG", "XOF", "XPF", "YER", "ZAR", "ZMW", "ZWG"};
  return codes;
}

}  // namespace spadework::document
