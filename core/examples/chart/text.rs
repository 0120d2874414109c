//! The reports as text for a terminal.

use levertrain_core::report::{
    CapacityReport, CombinationReport, EffortReport, Exact, FormulaReport, OperatingReport,
    PointReport, warnings,
};
use levertrain_core::words::{noun, number};
use levertrain_core::{Body, Train};

use crate::{Chart, Row, Single};

/// The range chart, what it holds, and where it runs.
pub fn range_chart(train: &Train, chart: &Chart) -> String {
    let mut text = format!("{}\n\n", train.scenario().name);
    text += &format!(
        "{:<24} {:<16} {:<13} {:>7}  ratio\n",
        "range", "applied", "state", "step"
    );
    for Row { range, .. } in &chart.ranges {
        text += &format!(
            "{:<24} {:<16} {:<13} {:>7}  {}\n",
            range.label,
            range.combination.applied.join(" "),
            range.combination.state,
            decimal(range.step.as_ref()),
            ratio(range.combination.ratio.as_ref()),
        );
    }
    if let Some(spread) = &chart.spread {
        text += &format!("\nspread {}\n", ratio(Some(spread)));
    }
    text += &range_capacities(chart);
    for Row { range, strain } in &chart.ranges {
        if let Some(operating) = &strain.operating {
            text += &format!("\n{}: {}", range.label, operating_text(operating));
        }
    }
    for warning in warnings(train) {
        text += &format!("tooth check, {}: {}\n", warning.coupling, warning.text);
    }
    text
}

/// One combination.
pub fn single(train: &Train, single: Single) -> String {
    let Single {
        combination: report,
        explanation,
        strain,
    } = single;
    let mut text = format!("{}: {}\n", explanation.state_words, explanation.answer);
    if report.ratio.is_some() {
        text += &format!("ratio {}\n", ratio(report.ratio.as_ref()));
    }
    text += &format!("degrees of freedom {}\n", report.degrees_of_freedom);
    if let Some(formula) = &explanation.working.ratio {
        text += &format!("ratio = {}\n", formula_text(formula));
    }
    for sentence in &explanation.sentences {
        text += &format!("{sentence}\n");
    }
    text += "\nspeed per input turn\n";
    for shaft in &report.shafts {
        text += &format!("  {:<28} {}\n", shaft.label, floating(shaft.speed.as_ref()));
    }
    for coupling in &explanation.couplings {
        for pinion in &coupling.pinions {
            let name = format!("{}, {} on its pin", coupling.label, pinion.name);
            text += &format!("  {name:<28} {}\n", floating(pinion.speed.as_ref()));
        }
    }
    text += &slips(train, &report);
    if let Some(effort) = &explanation.effort {
        text += &efforts(train, &report, effort);
    }
    if let Some(efficiency) = strain.losses.efficiency {
        text += &format!("efficiency {} %\n", number(efficiency * 100.0, 4));
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
    let mut text = "\nslip of open elements per input turn\n".to_owned();
    for (index, element) in open {
        let slip = floating(element.slip.as_ref());
        let [first, second] = train.ends(index).map(|body| noun(train.body_label(body)));
        let counted = if element.kind == "brake" {
            format!("speed of {first}")
        } else {
            format!("{first} less {second}")
        };
        text += &format!("  {:<28} {slip:<20} {counted}\n", element.label);
    }
    text
}

/// The line above all combinations.
pub fn all_heading() -> String {
    format!("{:<24} {:<13} {:>3}  ratio\n", "applied", "state", "dof")
}

/// One of all combinations.
pub fn all_line(report: &CombinationReport) -> String {
    format!(
        "{:<24} {:<13} {:>3}  {}\n",
        report.applied.join(" "),
        report.state,
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
    let line = |name: &str, point: &PointReport| {
        let pair = |speed: f64, torque: f64| {
            format!("{} rev/min {} N·m", number(speed, 4), number(torque, 4))
        };
        let engine = pair(point.engine_speed, point.engine_torque);
        let input = pair(point.input_speed, point.input_torque);
        let output = pair(point.output_speed, point.output_torque);
        format!("  {name:<8} engine {engine}, input {input}, output {output}\n")
    };
    let mut text = format!("{}\n", operating.words);
    for point in &operating.points {
        text += &line(if point.stable { "stable" } else { "unstable" }, point);
    }
    if let Some(point) = &operating.stall {
        text += &line("stall", point);
    }
    text
}

fn capacity_heading(torque: f64) -> String {
    let torque = number(torque, 4);
    format!("capacity over torque at {torque} N·m of input torque (not a strength rating)\n")
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
        text += &format!("  {:<24} {margin:>7}  {}\n", row.id, row.grip);
    }
    if let (Some(first), Some(most)) = (&capacity.first_to_slip, capacity.most_input) {
        let most = number(most, 4);
        text += &format!("  {first} slips first, above {most} N·m of input torque\n");
    }
    text
}

/// Torques of the applied elements, the output and the housing.
fn efforts(train: &Train, report: &CombinationReport, effort: &EffortReport) -> String {
    let undetermined = |value: Option<&Exact>| match value {
        Some(_) => ratio(value),
        None => "not determined: more is applied than needed".to_owned(),
    };
    let mut text =
        "\ntorque per unit of input torque, positive in the input's direction\n".to_owned();
    let carried = report.elements.iter().zip(&effort.elements).enumerate();
    for (index, (element, carried)) in carried.filter(|(_, (element, _))| element.applied) {
        let torque = undetermined(carried.torque.as_ref());
        let [first, second] = train.ends(index).map(|body| noun(train.body_label(body)));
        let on = format!("from {first} on {second}");
        text += &format!("  {:<28} {torque:<20} {on}\n", element.label);
    }
    text += &format!(
        "  {:<28} {}\n",
        "from outside at the output",
        undetermined(effort.output.as_ref())
    );
    let on_housing = format!("on {}", noun(train.body_label(Body::Housing)));
    text += &format!(
        "  {:<28} {}\n",
        on_housing,
        undetermined(effort.housing.as_ref())
    );
    if let Some(largest) = &effort.recirculating {
        text += &format!(
            "power goes round inside: up to {} of the input's\n",
            ratio(Some(largest))
        );
    }
    text
}

fn floating(value: Option<&Exact>) -> String {
    if value.is_none() {
        "free".to_owned()
    } else {
        ratio(value)
    }
}
