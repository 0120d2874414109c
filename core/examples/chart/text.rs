//! The reports as text for a terminal.

use levertrain_core::report::{
    CapacityReport, CombinationReport, EffortReport, Exact, FormulaReport, OperatingReport,
    PointReport, warnings,
};
use levertrain_core::words::{Case, noun_as, number, said, word};
use levertrain_core::{Body, Train};

use crate::{Chart, Row, Single};

/// The range chart, what it holds, and where it runs.
pub fn range_chart(train: &Train, chart: &Chart) -> String {
    let mut text = format!("{}\n\n", train.scenario().name);
    text += &format!(
        "{:<24} {:<16} {:<13} {:>7}  {}\n",
        word("cli-range"),
        word("cli-applied"),
        word("cli-state"),
        word("cli-step"),
        word("cli-ratio"),
    );
    for Row { range, .. } in &chart.ranges {
        text += &format!(
            "{:<24} {:<16} {:<13} {:>7}  {}\n",
            range.label,
            range.combination.applied.join(" "),
            state(&range.combination),
            decimal(range.step.as_ref()),
            ratio(range.combination.ratio.as_ref()),
        );
    }
    if let Some(spread) = &chart.spread {
        let spread = said("cli-spread", &[("spread", &ratio(Some(spread)))]);
        text += &format!("\n{spread}\n");
    }
    text += &range_capacities(chart);
    for Row { range, strain } in &chart.ranges {
        if let Some(operating) = &strain.operating {
            text += &format!("\n{}: {}", range.label, operating_text(operating));
        }
    }
    for warning in warnings(train) {
        let values = [("coupling", &*warning.coupling), ("check", &warning.text)];
        line(&mut text, &said("cli-tooth-check", &values));
    }
    text
}

/// One combination.
pub fn single(train: &Train, single: Single) -> String {
    let Single {
        combination: report,
        explanation,
        working,
        strain,
    } = single;
    let mut text = format!("{}: {}\n", explanation.state_words, explanation.answer);
    if report.ratio.is_some() {
        let ratio = ratio(report.ratio.as_ref());
        line(&mut text, &said("cli-ratio-is", &[("ratio", &ratio)]));
    }
    let freedom = report.degrees_of_freedom.to_string();
    line(&mut text, &said("cli-freedom", &[("freedom", &freedom)]));
    if let Some(formula) = &working.ratio {
        let formula = formula_text(formula);
        line(&mut text, &said("cli-formula", &[("formula", &formula)]));
    }
    for sentence in &explanation.sentences {
        line(&mut text, sentence);
    }
    text += &format!("\n{}\n", word("cli-speeds"));
    for shaft in &report.shafts {
        text += &format!("  {:<28} {}\n", shaft.label, floating(shaft.speed.as_ref()));
    }
    for coupling in &explanation.couplings {
        for pinion in &coupling.pinions {
            let values = [("coupling", &*coupling.label), ("pinion", pinion.name)];
            let name = said("cli-on-its-pin", &values);
            text += &format!("  {name:<28} {}\n", floating(pinion.speed.as_ref()));
        }
    }
    text += &slips(train, &report);
    if let Some(effort) = &explanation.effort {
        text += &efforts(train, &report, effort);
    }
    if let Some(efficiency) = strain.losses.efficiency {
        let percent = number(efficiency * 100.0, 4);
        line(&mut text, &said("cli-efficiency", &[("percent", &percent)]));
    }
    if let Some(capacity) = &strain.capacity
        && !capacity.elements.is_empty()
    {
        text += &format!("\n{}", capacity_heading(capacity.input_torque));
        text += &holdings(capacity);
    }
    if let Some(operating) = &strain.operating {
        text += &format!("\n{}", operating_text(operating));
    }
    text
}

/// Adds a line.
fn line(text: &mut String, words: &str) {
    text.push_str(words);
    text.push('\n');
}

/// The state of a combination.
fn state(report: &CombinationReport) -> String {
    said("cli-state-is", &[("state", report.state)])
}

/// A formula with its tooth counts put in, where that says something else.
fn formula_text(formula: &FormulaReport) -> String {
    let FormulaReport {
        symbols, numbers, ..
    } = formula;
    if symbols == numbers {
        symbols.clone()
    } else {
        format!("{symbols} = {numbers}")
    }
}

/// The slips of the open elements, and which way each is counted.
fn slips(train: &Train, report: &CombinationReport) -> String {
    let open = report.elements.iter().enumerate();
    let open: Vec<_> = open.filter(|(_, element)| !element.applied).collect();
    if open.is_empty() {
        return String::new();
    }
    let mut text = format!("\n{}\n", word("cli-slips"));
    for (index, element) in open {
        let slip = floating(element.slip.as_ref());
        let labels = train.ends(index).map(|body| train.body_label(body));
        let [first, second] = labels.map(|label| noun_as(label, Case::Subject));
        let values = [
            ("kind", element.kind),
            ("first", &first),
            ("second", &second),
            ("first-label", labels[0]),
            ("second-label", labels[1]),
        ];
        let counted = said("cli-slip-of", &values);
        text += &format!("  {:<28} {slip:<20} {counted}\n", element.label);
    }
    text
}

/// The line above all combinations.
pub fn all_heading() -> String {
    format!(
        "{:<24} {:<13} {:>3}  {}\n",
        word("cli-applied"),
        word("cli-state"),
        word("cli-dof"),
        word("cli-ratio"),
    )
}

/// One of all combinations.
pub fn all_line(report: &CombinationReport) -> String {
    format!(
        "{:<24} {:<13} {:>3}  {}\n",
        report.applied.join(" "),
        state(report),
        report.degrees_of_freedom,
        ratio(report.ratio.as_ref())
    )
}

fn decimal(value: Option<&Exact>) -> String {
    value.map_or_else(|| "–".to_owned(), |value| number(value.decimal, 4))
}

fn ratio(value: Option<&Exact>) -> String {
    value.map_or_else(String::new, |value| match number(value.decimal, 4) {
        decimal if decimal == value.fraction => decimal,
        decimal => format!("{decimal} = {}", value.fraction),
    })
}

/// What is found, then the steady points and the stall point, a line each.
fn operating_text(operating: &OperatingReport) -> String {
    let point_line = |name: &'static str, point: &PointReport| {
        let pair = |speed: f64, torque: f64| {
            let (speed, torque) = (number(speed, 4), number(torque, 4));
            said("cli-turning", &[("speed", &speed), ("torque", &torque)])
        };
        let values = [
            ("engine", &*pair(point.engine_speed, point.engine_torque)),
            ("input", &pair(point.input_speed, point.input_torque)),
            ("output", &pair(point.output_speed, point.output_torque)),
        ];
        format!("  {:<8} {}\n", word(name), said("cli-point", &values))
    };
    let mut text = format!("{}\n", operating.words);
    for point in &operating.points {
        let name = match point.stable {
            true => "cli-stable",
            false => "cli-unstable",
        };
        text += &point_line(name, point);
    }
    if let Some(point) = &operating.stall {
        text += &point_line("cli-stall", point);
    }
    text
}

fn capacity_heading(torque: f64) -> String {
    said("cli-capacity", &[("torque", &number(torque, 4))]) + "\n"
}

/// How every range holds, where there are friction data.
fn range_capacities(chart: &Chart) -> String {
    let mut text = String::new();
    for Row { range, strain } in &chart.ranges {
        let Some(capacity) = &strain.capacity else {
            continue;
        };
        if text.is_empty() {
            text = format!("\n{}", capacity_heading(capacity.input_torque));
        }
        text += &format!("{}\n{}", range.label, holdings(capacity));
    }
    text
}

fn holdings(capacity: &CapacityReport) -> String {
    let mut text = String::new();
    for row in &capacity.elements {
        let margin = row
            .margin
            .map_or_else(String::new, |margin| number(margin, 3));
        let grip = said("cli-grip-is", &[("grip", row.grip)]);
        text += &format!("  {:<24} {margin:>7}  {grip}\n", row.id);
    }
    if let (Some(first), Some(most)) = (&capacity.first_to_slip, capacity.most_input) {
        let values = [("element", &**first), ("torque", &number(most, 4))];
        text += &format!("  {}\n", said("cli-slips-first", &values));
    }
    text
}

/// Torques of the applied elements, the output and the housing.
fn efforts(train: &Train, report: &CombinationReport, effort: &EffortReport) -> String {
    let undetermined = |value: Option<&Exact>| match value {
        Some(_) => ratio(value),
        None => word("cli-undetermined").to_owned(),
    };
    let mut text = format!("\n{}\n", word("cli-torques"));
    let carried = report.elements.iter().zip(&effort.elements).enumerate();
    for (index, (element, carried)) in carried.filter(|(_, (element, _))| element.applied) {
        let torque = undetermined(carried.torque.as_ref());
        let labels = train.ends(index).map(|body| train.body_label(body));
        let [first, second] = labels.map(|label| noun_as(label, Case::Object));
        let values = [
            ("first", &*first),
            ("second", &second),
            ("first-label", labels[0]),
            ("second-label", labels[1]),
        ];
        let on = said("cli-from-on", &values);
        text += &format!("  {:<28} {torque:<20} {on}\n", element.label);
    }
    text += &format!(
        "  {:<28} {}\n",
        word("cli-at-output"),
        undetermined(effort.output.as_ref())
    );
    let housing = noun_as(train.body_label(Body::Housing), Case::Object);
    let on_housing = said("cli-on", &[("housing", &housing)]);
    text += &format!(
        "  {:<28} {}\n",
        on_housing,
        undetermined(effort.housing.as_ref())
    );
    if let Some(largest) = &effort.recirculating {
        let most = ratio(Some(largest));
        line(&mut text, &said("cli-goes-round", &[("most", &most)]));
    }
    text
}

fn floating(value: Option<&Exact>) -> String {
    if value.is_none() {
        word("cli-free").to_owned()
    } else {
        ratio(value)
    }
}
