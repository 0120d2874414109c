//! Edits of what a file may state of a train in motion, and which is assumed where it does not: numbers in its fields
//! `dynamics`, `vehicle` and `sources`.
//!
//! These fields are kept as texts. What an edit does not name stays in them as it is, whether it is right or not.

use crate::base::problem::Problem;
use crate::json::{Value, strict};
use crate::model::scenario::Scenario;
use crate::sources;
use crate::traction;
use crate::transient;

/// Where numbers stand, with the smallest and largest they may be: a star is the id of a shaft or an element.
const NUMBERS: [(&[&str], (f64, f64)); 15] = [
    (&["dynamics", "engine_inertia"], transient::INERTIA),
    (&["dynamics", "load_inertia"], transient::INERTIA),
    (&["dynamics", "shafts", "*", "inertia"], transient::INERTIA),
    (&["dynamics", "elements", "*", "fill_time"], transient::FILL),
    (
        &["dynamics", "elements", "*", "full_torque"],
        transient::FULL_TORQUE,
    ),
    (&["vehicle", "wheel_radius"], traction::RADIUS),
    (&["vehicle", "final_drive"], traction::RATIO),
    (&["sources", "battery"], (0.0, sources::AMOUNTS.1)),
    (&["sources", "input", "speed"], sources::SPEEDS),
    (&["sources", "input", "torque"], sources::AMOUNTS),
    (&["sources", "input", "power"], sources::AMOUNTS),
    (&["sources", "further", "*", "speed"], sources::SPEEDS),
    (&["sources", "further", "*", "torque"], sources::AMOUNTS),
    (&["sources", "further", "*", "power"], sources::AMOUNTS),
    (
        &["sources", "further", "*", "efficiency"],
        sources::EFFICIENCIES,
    ),
];

/// What the items of a list are found by.
fn key_of(list: &str) -> Option<&'static str> {
    match list {
        "shafts" | "further" => Some("shaft"),
        "elements" => Some("element"),
        _ => None,
    }
}

/// States a number, or no longer where there is none: it is assumed then.
pub(super) fn state(
    scenario: &mut Scenario,
    path: &[String],
    amount: Option<f64>,
) -> Result<(), Problem> {
    let place = path.join(".");
    let is_there = |(pattern, _): &&(&[&str], (f64, f64))| {
        let pairs = pattern.iter().zip(path);
        pattern.len() == path.len() && pairs.clone().all(|(own, name)| *own == "*" || own == name)
    };
    let missing = || Problem::of(&place, ("problem-not-there", &[]), ("fix-not-there", &[]));
    let &(_, (least, most)) = NUMBERS.iter().find(is_there).ok_or_else(missing)?;
    if let Some(amount) = amount.filter(|amount| !(least..=most).contains(amount)) {
        let message = "problem-out-of-range";
        return Err(Problem::out_of_range(&place, message, amount, least, most));
    }
    let field = match &*path[0] {
        "dynamics" => &mut scenario.dynamics,
        "vehicle" => &mut scenario.vehicle,
        _ => &mut scenario.sources,
    };
    let mut value = match field.as_deref().map(strict) {
        Some(Ok(value)) => value,
        _ => Value::Object(Vec::new()),
    };
    put(&mut value, &path[1..], amount).ok_or_else(missing)?;
    // Written as a file has it: after the colon.
    *field = (!is_empty(&value)).then(|| [" ", &value.text()].concat());
    Ok(())
}

/// Puts a number where a path leads, or takes it away with what is empty without it. `None` where something else is in the way.
fn put(value: &mut Value, path: &[String], amount: Option<f64>) -> Option<()> {
    let Value::Object(fields) = value else {
        return None;
    };
    let (name, rest) = path.split_first()?;
    let at = fields.iter().position(|(known, _)| known == name);
    if rest.is_empty() {
        match (at, amount) {
            (Some(at), Some(amount)) => fields[at].1 = Value::Number(amount),
            (None, Some(amount)) => fields.push((name.clone(), Value::Number(amount))),
            (Some(at), None) => drop(fields.remove(at)),
            (None, None) => {}
        }
        return Some(());
    }
    let at = at.unwrap_or_else(|| {
        let empty = match key_of(name) {
            Some(_) => Value::List(Vec::new()),
            None => Value::Object(Vec::new()),
        };
        fields.push((name.clone(), empty));
        fields.len() - 1
    });
    match key_of(name) {
        Some(_) => put_in_list(name, &mut fields[at].1, rest, amount)?,
        None => put(&mut fields[at].1, rest, amount)?,
    }
    if is_empty(&fields[at].1) {
        fields.remove(at);
    }
    Some(())
}

/// The same in the item of a list that is of an id. A further source is there without any number and is not made by one;
/// what is stated of a shaft or an element comes and goes with its numbers.
fn put_in_list(list: &str, value: &mut Value, path: &[String], amount: Option<f64>) -> Option<()> {
    let (id, rest) = path.split_first()?;
    let (key, comes) = (key_of(list)?, list != "further");
    let Value::List(items) = value else {
        return None;
    };
    let own = |item: &Value| match item {
        Value::Object(fields) => fields
            .iter()
            .any(|(name, value)| name == key && *value == Value::Text(id.clone())),
        _ => false,
    };
    let at = items.iter().position(own).or_else(|| {
        let named = (key.to_owned(), Value::Text(id.clone()));
        comes.then(|| items.push(Value::Object(vec![named])))?;
        Some(items.len() - 1)
    })?;
    put(&mut items[at], rest, amount)?;
    if comes && matches!(&items[at], Value::Object(fields) if fields.len() < 2) {
        items.remove(at);
    }
    Some(())
}

fn is_empty(value: &Value) -> bool {
    match value {
        Value::Object(fields) => fields.is_empty(),
        Value::List(items) => items.is_empty(),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::edit::blank;

    fn stated(scenario: &mut Scenario, path: &str, amount: Option<f64>) -> Result<(), Problem> {
        let path: Vec<String> = path.split('/').map(str::to_owned).collect();
        state(scenario, &path, amount)
    }

    /// Catches a number that is written elsewhere, one that takes others with it, and what stays empty behind it.
    #[test]
    fn numbers_come_and_go_by_themselves() {
        let mut scenario = blank();
        let all = [
            ("dynamics/engine_inertia", 0.25),
            ("dynamics/shafts/in/inertia", 0.02),
            ("dynamics/elements/V/fill_time", 0.0),
            ("dynamics/elements/V/full_torque", 300.0),
            ("vehicle/final_drive", 3.75),
            ("sources/input/speed", 5000.0),
        ];
        for (path, amount) in all {
            assert_eq!(stated(&mut scenario, path, Some(amount)), Ok(()), "{path}");
        }
        let expected = r#" {"engine_inertia": 0.25, "shafts": [{"shaft": "in", "inertia": 0.02}], "elements": [{"element": "V", "fill_time": 0.0, "full_torque": 300.0}]}"#;
        assert_eq!(scenario.dynamics.as_deref(), Some(expected));
        assert_eq!(
            scenario.vehicle.as_deref(),
            Some(r#" {"final_drive": 3.75}"#)
        );
        assert_eq!(
            scenario.sources.as_deref(),
            Some(r#" {"input": {"speed": 5000.0}}"#)
        );
        let other = stated(&mut scenario, "dynamics/engine_inertia", Some(0.5));
        assert_eq!(other, Ok(()));
        assert!(
            scenario
                .dynamics
                .as_deref()
                .is_some_and(|text| text.contains("0.5, "))
        );
        for (path, _) in all {
            assert_eq!(stated(&mut scenario, path, None), Ok(()), "{path}");
        }
        let left = [&scenario.dynamics, &scenario.vehicle, &scenario.sources];
        assert_eq!(left, [&None, &None, &None]);
    }

    /// Catches a source that is made or lost by a number, and faulty parts of a file that are thrown away.
    #[test]
    fn what_is_not_named_stays() {
        let mut scenario = blank();
        let field = r#" {"further": [{"shaft": "m1", "speed": 9000}], "batery": 5}"#;
        scenario.sources = Some(field.to_owned());
        assert_eq!(
            stated(&mut scenario, "sources/further/m1/speed", None),
            Ok(())
        );
        let without = r#" {"further": [{"shaft": "m1"}], "batery": 5}"#;
        assert_eq!(scenario.sources.as_deref(), Some(without));
        let wrong = [
            ("sources/further/m2/speed", 9000.0),
            ("sources/batery", 1.0),
            ("dynamics/engine_inertia", -1.0),
            ("dynamics/engine_inertia", f64::NAN),
            ("vehicle/wheel_radius/x", 0.3),
        ];
        for (path, amount) in wrong {
            assert!(stated(&mut scenario, path, Some(amount)).is_err(), "{path}");
        }
        assert_eq!(scenario.sources.as_deref(), Some(without));
        assert_eq!(scenario.dynamics, None);
        scenario.vehicle = Some(" 5".to_owned());
        assert!(stated(&mut scenario, "vehicle/final_drive", Some(3.0)).is_err());
    }
}
