//! A JSON value.
//!
//! Our own: an object keeps its few fields in a list, numbers stay as exact as they are written,
//! and the engine is smaller by the maps and number formats of a general one.

use crate::base::said::word;

/// A JSON value.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// `null`.
    Null,
    /// `true` or `false`.
    Bool(bool),
    /// A whole number from 0 up.
    Whole(u64),
    /// A whole number below 0.
    Negative(i64),
    /// Another number.
    Number(f64),
    /// A text.
    Text(String),
    /// A list.
    List(Vec<Value>),
    /// An object.
    Object(Vec<(String, Value)>),
}

impl Value {
    /// The number, as near as `f64` comes to it.
    pub const fn as_f64(&self) -> Option<f64> {
        match *self {
            Self::Whole(number) => Some(number as f64),
            Self::Negative(number) => Some(number as f64),
            Self::Number(number) => Some(number),
            _ => None,
        }
    }

    /// The whole number.
    pub fn as_i64(&self) -> Option<i64> {
        match *self {
            Self::Whole(number) => number.try_into().ok(),
            Self::Negative(number) => Some(number),
            _ => None,
        }
    }

    /// As a message quotes it: a list or an object as a whole would bury what is said about it.
    pub(crate) fn quoted(&self) -> String {
        match self {
            Self::Null => "null".to_owned(),
            Self::Bool(value) => value.to_string(),
            Self::Whole(number) => number.to_string(),
            Self::Negative(number) => number.to_string(),
            // The only one that is whole and no `Whole`: a sign alone.
            Self::Number(number) if number.to_bits() == 1 << 63 => "-0".to_owned(),
            // Debug writes 1e308 in short, and a point in what was written with one.
            Self::Number(number) => format!("{number:?}"),
            Self::Text(text) => format!("\"{text}\""),
            Self::List(_) => word("value-list").to_owned(),
            Self::Object(_) => word("value-object").to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::json::strict;

    #[test]
    fn numbers_are_quoted_as_they_were_written() {
        for text in ["-0", "0", "-3", "0.0", "2.5", "1e308"] {
            let quoted = strict(text).map(|value| value.quoted());
            assert_eq!(quoted.as_deref(), Ok(text));
        }
    }
}
