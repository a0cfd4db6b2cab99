//! Outside figures run through the core: published and computed tables, cell by cell.
//!
//! Reads text, never a file, and knows no folder: whoever has the files hands their names and texts in. Only with the
//! feature `reference`, so that none of it is ever in the page.
//!
//! ```
//! use joistwise_core::reference::check_file;
//! assert!(check_file("unheard-of.txt", "a list of paints").is_none());
//! ```

mod beam_file;
mod beams;
mod rules;
mod tables;
mod wood_examples;
mod wood_spans;
mod wood_values;
mod worked;

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

/// What became of the cells of one file.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Report {
    /// Figures compared.
    pub cells: usize,
    /// How many of them agree within the tolerance of their kind.
    pub within: usize,
    /// What was not compared, why, and how many of it.
    pub skipped: Vec<(String, usize)>,
    /// How many of a sort come out exactly as printed; a sort names its mark.
    pub counts: Vec<Count>,
    /// Every figure that disagrees, and of the others those furthest off, furthest first.
    pub worst: Vec<Row>,
}

/// So many figures of one sort: of one mark and, where it matters, of one table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Count {
    /// `SEEN, current values, to the nearest inch`.
    pub sort: String,
    /// Figures of that sort, also of those known to disagree.
    pub cells: usize,
    /// How many come out.
    pub agree: usize,
}

/// One figure compared.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Row {
    /// Case, state and quantity with its unit.
    pub label: String,
    /// As the file has it.
    pub expected: f64,
    /// As the core has it.
    pub got: f64,
    /// How far apart, as a part of the size that matters in the case: its whole load, its greatest moment.
    pub difference: f64,
    /// Whether that is within the tolerance.
    pub within: bool,
}

/// Rows kept of those that agree.
const KEPT: usize = 12;

/// Compares every figure of a file with what the core makes of its question; `None` when no check knows the file.
///
/// A file is known by the `schema` it states, a table by its name.
#[must_use]
pub fn check_file(name: &str, text: &str) -> Option<Report> {
    match name.rsplit(['/', '\\']).next()? {
        "live_loads.csv" => return Some(tables::live_loads(text)),
        "dead_loads.csv" => return Some(tables::dead_loads(text)),
        "soil_bearing.csv" => return Some(tables::soil_bearing(text)),
        "heavy_things.csv" => return Some(tables::heavy_things(text)),
        "footing_tables.csv" => return Some(rules::footings(text)),
        "heel_joint_nails.csv" => return Some(rules::heel_joints(text)),
        "combinations_and_roof_rules.csv" => return Some(rules::combinations(text)),
        "load_path_rules.csv" => return Some(rules::load_path(text)),
        "decision_rules.csv" => return Some(rules::decisions(text)),
        "floor_joist_spans.csv" | "ceiling_joist_spans.csv" | "rafter_spans.csv" => {
            return Some(wood_spans::spans(text));
        }
        "header_girder_spans.csv" => return Some(wood_spans::headers(text)),
        "lumber_design_values.csv" => return Some(wood_values::lumber_values(text)),
        "southern_pine_design_values.csv" => return Some(wood_values::southern_pine(text)),
        "legacy_bending_values.csv" => return Some(wood_values::legacy_values(text)),
        "dressed_sizes.csv" => return Some(wood_values::sizes(text)),
        "adjustment_factors.csv" => return Some(wood_values::factors(text)),
        "engineered_wood_design_values.csv" => return Some(wood_values::engineered(text)),
        "steel_grades.csv" => return Some(wood_values::steels(text)),
        "steel_w_sections.csv" => return Some(wood_values::shapes(text)),
        "worked_examples.csv" => return Some(wood_examples::check(text)),
        _ => {}
    }
    let Schema { schema } = serde_json::from_str(text).ok()?;
    match schema.as_str() {
        "beam-vectors/1" | "beam-classics/1" => Some(beams::check(text)),
        "statics-examples/1" => Some(worked::check(text)),
        _ => None,
    }
}

#[derive(Deserialize)]
struct Schema {
    schema: String,
}

impl Report {
    /// One figure; it agrees when it is within `tolerance` times `scale` of the expected one.
    fn compare(&mut self, label: impl FnOnce() -> String, (expected, got): (f64, f64), scale: f64, tolerance: f64) {
        let apart = (got - expected).abs();
        let difference = if scale.abs() > 0.0 { apart / scale.abs() } else { apart };
        let within = difference <= tolerance;
        self.cells += 1;
        self.within += usize::from(within);
        let full = self.worst.len() >= KEPT;
        if !within || !full || self.worst.iter().any(|row| row.within && row.difference < difference) {
            self.worst.push(Row { label: label(), expected, got, difference, within });
            // What disagrees first, then by size; a figure that is no number is furthest of all.
            self.worst.sort_by(|a, b| a.within.cmp(&b.within).then(b.difference.total_cmp(&a.difference)));
            let wrong = self.worst.iter().filter(|row| !row.within).count();
            self.worst.truncate(KEPT.max(wrong));
        }
    }

    /// One thing that is or is not: 1 and 0.
    fn agree(&mut self, label: impl FnOnce() -> String, expected: bool, got: bool) {
        self.compare(label, (f64::from(u8::from(expected)), f64::from(u8::from(got))), 1.0, 0.5);
    }

    /// One more figure of a sort.
    fn count(&mut self, sort: &str, agrees: bool) {
        let at = self.counts.iter().position(|count| count.sort == sort);
        let at = at.unwrap_or_else(|| {
            self.counts.push(Count { sort: sort.to_owned(), cells: 0, agree: 0 });
            self.counts.len() - 1
        });
        if let Some(count) = self.counts.get_mut(at) {
            count.cells += 1;
            count.agree += usize::from(agrees);
        }
    }

    /// `count` figures not compared, and why.
    fn skip(&mut self, reason: &str, count: usize) {
        if count == 0 {
            return;
        }
        match self.skipped.iter_mut().find(|(known, _)| known == reason) {
            Some((_, counted)) => *counted += count,
            None => self.skipped.push((reason.to_owned(), count)),
        }
    }
}

/// Every row of a table through a check.
fn rows<Row: DeserializeOwned>(text: &str, check: impl Fn(&Row, &mut Report)) -> Report {
    let mut report = Report::default();
    for row in csv::Reader::from_reader(text.as_bytes()).deserialize() {
        match row {
            Ok(row) => check(&row, &mut report),
            Err(error) => report.skip(&format!("a row that could not be read: {error}"), 1),
        }
    }
    report
}

/// The numbers in a text, a comma within one left out; a digit that ends a name (`R1`, `ft2`) is none.
fn numbers(text: &str) -> Vec<f64> {
    let joined = text.replace(',', "");
    let words = joined.split(|c: char| !c.is_alphanumeric() && c != '.');
    words.filter_map(|word| word.trim_end_matches('.').parse().ok()).filter(|number: &f64| number.is_finite()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const JOIST: &str = r#"{"schema": "beam-classics/1", "cases": [{"id": "one joist", "E_psi": 1.6e6, "I_in4": 178,
        "length_ft": 16, "supports_ft": [0, 16], "breaks_ft": [], "point": [],
        "uniform": [{"from_ft": 0, "to_ft": 16, "plf": 100}], "expect": {"reactions_lb": [800, 801]}}]}"#;

    #[test]
    fn a_figure_that_is_off_by_a_pound_is_found_and_comes_first() {
        let report = check_file("any.json", JOIST).unwrap();
        assert_eq!((report.cells, report.within), (2, 1));
        let Row { label, expected, got, within, .. } = &report.worst[0];
        assert_eq!((label.as_str(), *within), ("one joist, held both ways: reaction at 16 ft, lb", false));
        assert!((expected - 801.0).abs() < 1e-9 && (got - 800.0).abs() < 1e-9);
    }

    #[test]
    fn a_figure_that_nothing_compares_is_refused_not_passed_over() {
        let unknown = JOIST.replace("reactions_lb", "reactions_kg");
        let report = check_file("any.json", &unknown).unwrap();
        assert_eq!(report.cells, 0);
        assert!(report.skipped[0].0.contains("reactions_kg"), "{:?}", report.skipped);
    }
}
