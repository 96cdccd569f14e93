// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/packing.hpp"

#include <sodium.h>
#include <zlib.h>

#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace beforehand::records {
namespace {

using nlohmann::json;

constexpr std::size_t longest_text = 64u << 20;
constexpr int base64 = sodium_base64_VARIANT_ORIGINAL_NO_PADDING;

// Calls `take` with each space-separated word.
template <class F>
void each_word(std::string_view text, F take) {
  while (!text.empty()) {
    const auto end = std::min(text.find(' '), text.size());
    if (end > 0) take(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
}

json task_json(const TaskRecord& task) {
  auto faults = json::array();
  for (const auto& f : task.faults) {
    auto fault = json::array({f.kind});
    for (const auto& name : f.about) fault.push_back(name);
    faults.push_back(std::move(fault));
  }
  return {{"right", task.right}, {"of", task.of}, {"took", task.took.count()}, {"faults", faults}};
}

std::optional<TaskRecord> task_from(const json& all, const char* name) {
  if (!all.contains(name)) return std::nullopt;
  const auto& j = all[name];
  TaskRecord task{j.at("right"), j.at("of"), Ms{j.at("took").get<std::int64_t>()}, {}};
  for (const auto& f : j.at("faults"))
    task.faults.push_back({f.at(0), std::vector<std::string>(f.begin() + 1, f.end())});
  return task;
}

}  // namespace

std::int64_t thousandths(double v) { return std::llround(v * 1e3); }
std::int64_t millionths(double v) { return std::llround(v * 1e6); }
double from_thousandths(std::int64_t v) { return static_cast<double>(v) / 1e3; }
double from_millionths(std::int64_t v) { return static_cast<double>(v) / 1e6; }

std::string pack(const std::vector<StepOutcome>& outcomes) {
  std::string text;
  for (const auto& o : outcomes) {
    if (!text.empty()) text += ' ';
    text += o.passed ? '+' : '-';
    text += o.step;
  }
  return text;
}

std::vector<StepOutcome> unpack_outcomes(std::string_view text) {
  std::vector<StepOutcome> list;
  each_word(text, [&](std::string_view w) {
    list.push_back({std::string(w.substr(1)), w.front() == '+'});
  });
  return list;
}

std::string pack(const std::vector<NeedRecord>& needs) {
  auto list = json::array();
  for (const auto& n : needs) {
    list.push_back({n.step, n.from, n.need, n.due_at.count(),
                    n.ready_at == never ? json() : json(n.ready_at.count()), n.wait.count(),
                    int{n.requested}, int{n.helped}, millionths(n.credit)});
  }
  return list.dump(-1, ' ', false, json::error_handler_t::replace);
}

std::vector<NeedRecord> unpack_needs(std::string_view text) {
  std::vector<NeedRecord> list;
  const auto read = json::parse(text);
  for (const auto& n : read) {
    list.push_back({n.at(0), n.at(1), n.at(2), Ms{n.at(3).get<std::int64_t>()},
                    n.at(4).is_null() ? never : Ms{n.at(4).get<std::int64_t>()},
                    Ms{n.at(5).get<std::int64_t>()}, n.at(6) == 1, n.at(7) == 1,
                    from_millionths(n.at(8).get<std::int64_t>())});
  }
  return list;
}

std::string pack(const Around& around) {
  if (around.empty()) return {};
  json all;
  if (around.set_up) all["set_up"] = task_json(*around.set_up);
  if (around.turnover) all["turnover"] = task_json(*around.turnover);
  return all.dump(-1, ' ', false, json::error_handler_t::replace);
}

Around unpack_around(std::string_view text) {
  if (text.empty()) return {};
  const auto all = json::parse(text);
  return {task_from(all, "set_up"), task_from(all, "turnover")};
}

std::string pack(const std::vector<StepHistory>& steps) {
  std::string text;
  for (const auto& s : steps) {
    if (!text.empty()) text += ' ';
    text += s.step + '=' + s.outcomes;
  }
  return text;
}

std::vector<StepHistory> unpack_history(std::string_view text) {
  std::vector<StepHistory> list;
  each_word(text, [&](std::string_view w) {
    const auto middle = std::min(w.find('='), w.size() - 1);
    list.push_back({std::string(w.substr(0, middle)), std::string(w.substr(middle + 1))});
  });
  return list;
}

std::string squeeze(std::string_view text) {
  auto size = compressBound(static_cast<uLong>(text.size()));
  std::vector<unsigned char> bytes(size);
  compress2(bytes.data(), &size, reinterpret_cast<const Bytef*>(text.data()),
            static_cast<uLong>(text.size()), Z_BEST_SPEED + 5);
  std::string out(sodium_base64_encoded_len(size, base64), '\0');
  sodium_bin2base64(out.data(), out.size(), bytes.data(), size, base64);
  out.pop_back();  // its terminating zero
  return std::to_string(text.size()) + ' ' + out;
}

std::string expand(std::string_view squeezed) {
  const auto bad = [] { return std::runtime_error("a stored text is damaged and cannot be read"); };
  const auto space = squeezed.find(' ');
  std::size_t length = 0;
  if (space == std::string_view::npos) throw bad();
  std::from_chars(squeezed.data(), squeezed.data() + space, length);
  if (length > longest_text) throw bad();
  squeezed.remove_prefix(space + 1);
  std::vector<unsigned char> bytes(squeezed.size());
  std::size_t size = 0;
  if (sodium_base642bin(bytes.data(), bytes.size(), squeezed.data(), squeezed.size(), nullptr,
                        &size, nullptr, base64) != 0)
    throw bad();
  std::string text(length, '\0');
  auto got = static_cast<uLongf>(length);
  const int ok = uncompress(reinterpret_cast<Bytef*>(text.data()), &got, bytes.data(),
                            static_cast<uLong>(size));
  if (ok != Z_OK || got != length) throw bad();
  return text;
}

}  // namespace beforehand::records
