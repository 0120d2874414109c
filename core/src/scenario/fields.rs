//! The fields of one object, taken out one by one, each fault with its place.

use serde_json::{Map, Value};

use crate::fault::Fault;

/// An object being read. Every method gives `None` after noting a fault.
pub(super) struct Fields<'f> {
    place: &'static str,
    fields: Map<String, Value>,
    faults: &'f mut Vec<Fault>,
}

impl<'f> Fields<'f> {
    /// The fields of an object that may have only these, and must have all of them.
    pub(super) fn of(
        value: Value,
        place: &'static str,
        names: &[&str],
        faults: &'f mut Vec<Fault>,
    ) -> Option<Self> {
        let Value::Object(fields) = value else {
            faults.push(Fault::new(place, "not an object", "write it in { }"));
            return None;
        };
        let before = faults.len();
        for name in fields.keys().filter(|name| !names.contains(&name.as_str())) {
            faults.push(Fault::new(
                format!("{place}.{name}"),
                format!("unknown field `{name}`"),
                format!("use only {}", names.join(", ")),
            ));
        }
        for name in names.iter().filter(|name| !fields.contains_key(**name)) {
            let problem = format!("missing field `{name}`");
            faults.push(Fault::new(place, problem, "add it"));
        }
        (faults.len() == before).then_some(Self {
            place,
            fields,
            faults,
        })
    }

    /// A text.
    pub(super) fn text(&mut self, name: &str) -> Option<String> {
        match self.fields.remove(name) {
            Some(Value::String(text)) => Some(text),
            _ => self.misfit(name, "not a text", "write it in quotes"),
        }
    }

    /// A number.
    pub(super) fn number(&mut self, name: &str) -> Option<f64> {
        match self.fields.get(name).and_then(Value::as_f64) {
            Some(number) => Some(number),
            None => self.misfit(name, "not a number", "write a number"),
        }
    }

    /// A list of rows of `N` numbers each.
    pub(super) fn rows<const N: usize>(&mut self, name: &str) -> Option<Vec<[f64; N]>> {
        let Some(Value::Array(items)) = self.fields.remove(name) else {
            return self.misfit(name, "not a list", "write rows of numbers in [ ]");
        };
        let mut rows = Vec::with_capacity(items.len());
        for (index, item) in items.iter().enumerate() {
            let numbers = item.as_array().map_or(&[][..], Vec::as_slice);
            let numbers: Vec<f64> = numbers.iter().filter_map(Value::as_f64).collect();
            match <[f64; N]>::try_from(numbers) {
                Ok(row) if item.as_array().is_some_and(|item| item.len() == N) => rows.push(row),
                _ => {
                    let problem = format!("not a row of {N} numbers");
                    let place = format!("{name}[{index}]");
                    return self.misfit(&place, &problem, "write them in [ ], with commas between");
                }
            }
        }
        Some(rows)
    }

    fn misfit<T>(&mut self, name: &str, problem: &str, fix: &str) -> Option<T> {
        let place = format!("{}.{name}", self.place);
        self.faults.push(Fault::new(place, problem, fix));
        None
    }
}
