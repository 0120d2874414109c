//! What a file can be changed to, and the names in it.

use std::collections::BTreeSet;

use serde_json::{Value, json};

/// A file with each of its values changed in turn, left out, called otherwise or repeated.
pub fn changes(data: &Value) -> Vec<Value> {
    let mut places = Vec::new();
    collect(data, String::new(), &mut places);
    let numbers = json!([-1, 7.5, 0, 7, 77, 300, 1_000_000, -99_999]);
    let texts = json!([null, true, [], {}, -1, "", "x", " ", "\u{202e}", "housing"]);
    let [numbers, mut others] = [numbers, texts].map(|list| match list {
        Value::Array(items) => items,
        _ => Vec::new(),
    });
    for list in ["shafts", "elements"] {
        let ids = data[list].as_array().into_iter().flatten();
        others.extend(ids.map(|item| item["id"].clone()));
    }
    let mut changed = Vec::new();
    for place in places {
        let more = match data.pointer(&place) {
            Some(Value::Number(_)) => &*numbers,
            _ => &[],
        };
        for other in others.iter().chain(more) {
            let mut data = data.clone();
            if let Some(value) = data.pointer_mut(&place) {
                *value = other.clone();
            }
            changed.push(data);
        }
        let Some((around, own)) = place.rsplit_once('/') else {
            continue;
        };
        let mut data = data.clone();
        match data.pointer_mut(around) {
            Some(Value::Object(fields)) => {
                let value = fields.remove(own).unwrap_or_default();
                changed.push(data.clone());
                if let Some(Value::Object(fields)) = data.pointer_mut(around) {
                    fields.insert("x".to_owned(), value);
                }
            }
            Some(Value::Array(items)) => {
                let item = own
                    .parse()
                    .ok()
                    .and_then(|at: usize| items.get(at).cloned());
                items.extend(item.iter().cloned());
                changed.push(data.clone());
                if let Some(Value::Array(items)) = data.pointer_mut(around) {
                    items.extend(std::iter::repeat_n(item.unwrap_or_default(), 40));
                }
            }
            _ => {}
        }
        changed.push(data);
    }
    changed
}

/// The places of all values; of a list the first two and the last.
fn collect(value: &Value, place: String, places: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            for (name, value) in fields {
                collect(value, format!("{place}/{name}"), places);
            }
        }
        Value::Array(items) => {
            for (index, value) in items.iter().enumerate() {
                if index < 2 || index + 1 == items.len() {
                    collect(value, format!("{place}/{index}"), places);
                }
            }
        }
        _ => {}
    }
    places.push(place);
}

/// The names of all fields that a schema describes, and the words that may stand in them.
pub fn fields_in(schema: &Value, names: &mut BTreeSet<String>) {
    match schema {
        Value::Object(parts) => {
            for (part, value) in parts {
                match (part.as_str(), value) {
                    ("properties", Value::Object(fields)) => names.extend(fields.keys().cloned()),
                    ("enum" | "const", words) => names.extend(names_in(words)),
                    _ => {}
                }
                fields_in(value, names);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| fields_in(item, names)),
        _ => {}
    }
}

/// The words of all keys and texts.
pub fn names_in(value: &Value) -> BTreeSet<String> {
    let text = value.to_string();
    let words = text.split(|c: char| !c.is_ascii_alphanumeric());
    words.map(str::to_owned).collect()
}
