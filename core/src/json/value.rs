//! A JSON value.
//!
//! Our own: an object keeps its few fields in a list, numbers stay as exact as they are written,
//! and the engine is smaller by the maps and number formats of a general one.

use std::fmt;

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
}

/// As a message quotes it: a list or an object as a whole would bury what is said about it.
impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Null => f.write_str("null"),
            Self::Bool(true) => f.write_str("true"),
            Self::Bool(false) => f.write_str("false"),
            Self::Whole(number) => write!(f, "{number}"),
            Self::Negative(number) => write!(f, "{number}"),
            // Debug writes 1e308 in short, and a point in what was written with one.
            Self::Number(number) => write!(f, "{number:?}"),
            Self::Text(text) => write!(f, "\"{text}\""),
            Self::List(_) => f.write_str("a list"),
            Self::Object(_) => f.write_str("an object"),
        }
    }
}
