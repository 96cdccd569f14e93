// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/html_page.hpp"

#include <fmt/format.h>

#include <cmath>

#include "picture/markup.hpp"
#include "picture/svg_canvas.hpp"

namespace beforehand::picture {

namespace {

// The window's colours. On paper nothing is folded, nothing scrolls, and a row or a picture is kept
// on one sheet.
constexpr std::string_view style = R"(
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0;background:#eaf0ef;color:#16282b;font:17px/1.5 'DejaVu Sans','Noto Sans','Segoe UI',Arial,sans-serif;
overflow-wrap:anywhere}
main{max-width:66rem;margin:0 auto;padding:1rem;background:#fff}
h1{font-size:1.7rem;line-height:1.25;margin:.4rem 0}
h2{font-size:1.3rem;margin:2rem 0 .4rem;padding-top:.6rem;border-top:2px solid #b9c7c6}
h3{font-size:1.08rem;margin:1.3rem 0 .3rem}
p{margin:.4rem 0}
ul{margin:.4rem 0;padding-left:1.3rem}
.strong{background:#fbe3dc;border-left:6px solid #9a2410;padding:.5rem .8rem;font-weight:bold}
.cautions{background:#ffefcf;border-left:6px solid #7a4300;padding:.3rem .8rem;margin:1rem 0}
.cautions h2{border:0;margin:.2rem 0;padding:0;font-size:1.08rem}
dl{display:grid;grid-template-columns:repeat(auto-fit,minmax(11rem,1fr));gap:.5rem;margin:.8rem 0}
dl div{background:#f4f8f7;border:1px solid #b9c7c6;border-radius:6px;padding:.4rem .6rem}
dt{color:#455a5e;font-size:.94rem}
dd{margin:0;font-weight:bold;font-size:1.08rem}
.wide{overflow-x:auto}
.wide:focus{outline:3px solid #0b5f6b}
table{border-collapse:collapse;width:100%;font-size:.94rem;overflow-wrap:normal}
caption{text-align:left;font-weight:bold;padding:.3rem 0}
th,td{border-bottom:1px solid #b9c7c6;padding:.25rem .5rem;text-align:left;vertical-align:top}
thead th{border-bottom:2px solid #637677}
tbody th{font-weight:normal}
.n{text-align:right;font-variant-numeric:tabular-nums}
figure{margin:1rem 0}
figcaption{font-weight:bold}
figure svg{display:block;min-width:44rem;width:100%;height:auto}
details{margin:.3rem 0}
summary{cursor:pointer;color:#0b5f6b;padding:.3rem 0}
footer{margin-top:2rem;border-top:2px solid #b9c7c6;color:#455a5e;font-size:.94rem}
@page{margin:14mm}
@media print{body{background:#fff;font-size:10.5pt}main{max-width:none;padding:0}
h1,h2,h3,caption,figcaption{break-after:avoid}svg,tr,dl div,.cautions,.strong{break-inside:avoid}
thead{display:table-header-group}.wide{overflow:visible}figure svg{min-width:0;max-height:225mm}
summary{display:none}
*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}
)";

}  // namespace

HtmlPage::HtmlPage(const Strings& texts, std::string_view title) : t_(texts) {
  const auto t = escape_markup(title);
  head_ = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta "
      "name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>{}</title>\n"
      "<style>{}</style>\n</head>\n<body>\n<main>\n",
      escape_markup(t_("language.code")), t, style);
}

void HtmlPage::element(std::string_view name, std::string_view text) {
  body_ += fmt::format("<{0}>{1}</{0}>\n", name, escape_markup(text));
}

void HtmlPage::heading(int level, std::string_view text) {
  element(fmt::format("h{}", level), text);
}

void HtmlPage::paragraph(std::string_view text) { element("p", text); }

void HtmlPage::kept(std::string_view text) {
  body_ += "<p lang=\"en\">" + escape_markup(text) + "</p>\n";
}

void HtmlPage::strong(std::string_view text) {
  body_ += "<p class=\"strong\">" + escape_markup(text) + "</p>\n";
}

void HtmlPage::list(const std::vector<std::string>& items) {
  body_ += "<ul>\n";
  for (const auto& item : items) element("li", item);
  body_ += "</ul>\n";
}

void HtmlPage::table_body(const Table& t) {
  body_ += "<table>\n";
  element("caption", t.caption);
  body_ += "<thead><tr>";
  for (std::size_t i = 0; i < t.head.size(); ++i)
    body_ += fmt::format("<th scope=\"col\"{}>{}</th>", i >= t.figures ? " class=\"n\"" : "",
                         escape_markup(t.head[i]));
  body_ += "</tr></thead>\n<tbody>\n";
  for (const auto& row : t.rows) {
    body_ += "<tr>";
    for (std::size_t i = 0; i < row.size(); ++i) {
      const auto* number = i >= t.figures ? " class=\"n\"" : "";
      body_ += i == 0 ? fmt::format("<th scope=\"row\"{}>{}</th>", number, escape_markup(row[i]))
                      : fmt::format("<td{}>{}</td>", number, escape_markup(row[i]));
    }
    body_ += "</tr>\n";
  }
  body_ += "</tbody>\n</table>\n";
}

// What may be wider than a phone scrolls by itself, by keyboard too.
void HtmlPage::table(const Table& t) {
  body_ += fmt::format("<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"{}\">\n",
                       escape_markup(t.caption));
  table_body(t);
  body_ += "</div>\n";
}

void HtmlPage::figure(const Figure& f) {
  SvgCanvas canvas(f.width, f.height, f.title, f.description);
  f.draw(canvas);
  body_ += fmt::format(
      "<figure>\n<figcaption>{0}</figcaption>\n<div class=\"wide\" tabindex=\"0\" role=\"group\" "
      "aria-label=\"{0}\">\n{1}</div>\n<details open=\"open\">\n<summary>{3}</summary>\n"
      "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"{2}\">\n",
      escape_markup(f.title), canvas.str(), escape_markup(f.figures.caption),
      escape_markup(t_("report.figures")));
  table_body(f.figures);
  body_ += "</div>\n</details>\n</figure>\n";
}

void HtmlPage::facts(const std::vector<std::pair<std::string, std::string>>& list) {
  body_ += "<dl>\n";
  for (const auto& [what, value] : list)
    body_ += fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", escape_markup(what),
                         escape_markup(value));
  body_ += "</dl>\n";
}

void HtmlPage::cautions(const std::vector<std::string>& own) {
  body_ += fmt::format("<section class=\"cautions\" aria-label=\"{}\">\n",
                       escape_markup(t_("report.cautions")));
  heading(2, t_("report.cautions.title"));
  paragraph(t_("report.cautions.text"));
  if (!own.empty()) list(own);
  body_ += "</section>\n";
}

std::string HtmlPage::str() const { return head_ + body_ + "</main>\n</body>\n</html>\n"; }

std::string number_text(double value, int decimals) {
  return fmt::format("{:.{}f}", value, decimals);
}
std::string percent_text(double share) { return fmt::format("{:.0f} %", 100 * share); }
std::string seconds_text(Ms t) { return t == never ? "–" : fmt::format("{:.1f}", to_seconds(t)); }

}  // namespace beforehand::picture
