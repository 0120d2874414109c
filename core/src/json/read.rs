//! From a JSON value to a type of the scenario: each value with its place, every problem noted.
//!
//! Written out instead of derived: the messages are ours, all problems of an object are found at
//! once, and the engine that a page loads is smaller by a twentieth.

use super::value::Value;
pub use crate::base::problem::Problem;
use crate::base::said::word;

/// What can stand in a scenario file, or in settings.
pub trait Read: Sized {
    /// Reads the value at `place`, the path of a field or empty for the whole file; `None`
    /// after noting at least one problem.
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self>;
}

/// Implements [`Read`] for a struct by the names of its fields; those after `optional` may be
/// left out, which `null` is not.
#[macro_export]
macro_rules! read_fields {
    ($kind:ty { $($name:ident),+ } $(optional { $($spare:ident),+ })?) => {
        impl $crate::json::Read for $kind {
            fn read(
                value: $crate::json::Value,
                place: &str,
                problems: &mut Vec<$crate::json::Problem>,
            ) -> Option<Self> {
                let names = [$(stringify!($name)),+];
                let spare: &[&str] = &[$($(stringify!($spare)),+)?];
                let mut fields =
                    $crate::json::Fields::of(value, place, &names, spare, problems)?;
                // All fields are read before the first that is missing ends it.
                $(let $name = fields.take(stringify!($name));)+
                $($(let $spare = fields.take_spare(stringify!($spare));)+)?
                Some(Self { $($name: $name?,)+ $($($spare: $spare?,)+)? })
            }
        }
    };
}
pub use read_fields;

/// The fields of an object that have not been read yet.
pub struct Fields<'f> {
    place: String,
    fields: Vec<(String, Value)>,
    problems: &'f mut Vec<Problem>,
}

impl<'f> Fields<'f> {
    /// The fields of an object that must have all of `names` and may have the `spare` ones.
    /// Notes what is missing or unknown; `None` only if it is no object.
    pub fn of(
        value: Value,
        place: &str,
        names: &[&str],
        spare: &[&str],
        problems: &'f mut Vec<Problem>,
    ) -> Option<Self> {
        let fields = object(value, place, problems)?;
        let known = |name: &str| names.contains(&name) || spare.contains(&name);
        for (name, _) in fields.iter().filter(|(name, _)| !known(name)) {
            problems.push(Problem::of(
                &within(place, name),
                ("problem-unknown-field", &[("name", name)]),
                (
                    "fix-use-only",
                    &[("names", &[names, spare].concat().join(", "))],
                ),
            ));
        }
        for name in names
            .iter()
            .filter(|name| position(&fields, name).is_none())
        {
            let problem = ("problem-missing-field", &[("name", *name)][..]);
            problems.push(Problem::of(place, problem, ("fix-add", &[])));
        }
        Some(Self {
            place: place.to_owned(),
            fields,
            problems,
        })
    }

    /// A field; that it is missing has been noted.
    pub fn take<T: Read>(&mut self, name: &str) -> Option<T> {
        let value = removed(&mut self.fields, name)?;
        T::read(value, &within(&self.place, name), self.problems)
    }

    /// A field that may be left out: nothing in it then. Nothing at all where it is wrong, which has been noted.
    pub fn take_spare<T: Read>(&mut self, name: &str) -> Option<Option<T>> {
        if position(&self.fields, name).is_some() {
            self.take(name).map(Some)
        } else {
            Some(None)
        }
    }
}

/// Whether a file has this format number; notes it where it has another. Not inline, as [`removed`].
#[inline(never)]
pub(crate) fn is_format(found: &Value, format: u64, problems: &mut Vec<Problem>) -> bool {
    let is_known = *found == Value::Whole(format);
    if !is_known {
        problems.push(Problem::of(
            "format",
            ("problem-format", &[("found", &found.quoted())]),
            ("fix-format", &[("format", &format.to_string())]),
        ));
    }
    is_known
}

fn position(fields: &[(String, Value)], name: &str) -> Option<usize> {
    fields.iter().position(|(known, _)| known == name)
}

/// Takes a field out. Not inline: it would stand in the engine once for every type that is read.
#[inline(never)]
fn removed(fields: &mut Vec<(String, Value)>, name: &str) -> Option<Value> {
    position(fields, name).map(|at| fields.swap_remove(at).1)
}

/// The path of a field of what stands at `place`. Not inline, as [`removed`].
#[inline(never)]
fn within(place: &str, name: &str) -> String {
    if place.is_empty() {
        name.to_owned()
    } else {
        format!("{place}.{name}")
    }
}

/// The fields of an object.
pub(super) fn object(
    value: Value,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Vec<(String, Value)>> {
    match value {
        Value::Object(fields) => Some(fields),
        other => misfit(place, NOT_AN_OBJECT, &other, problems),
    }
}

/// The entries of a list.
fn entries(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Vec<Value>> {
    match value {
        Value::List(items) => Some(items),
        other => misfit(place, NOT_A_LIST, &other, problems),
    }
}

/// Reads each entry of a list, for the problems of all of them; those that are faulty are left out.
pub(crate) fn list<T: Read>(items: Vec<Value>, place: &str, problems: &mut Vec<Problem>) -> Vec<T> {
    let mut read = Vec::with_capacity(items.len());
    for (index, item) in items.into_iter().enumerate() {
        read.extend(T::read(item, &format!("{place}[{index}]"), problems));
    }
    read
}

/// What is said of a value of the wrong kind, and what would mend it.
type Misfit = (&'static str, &'static str);

const NOT_AN_OBJECT: Misfit = ("problem-not-object", "fix-write-object");
const NOT_A_LIST: Misfit = ("problem-not-list", "fix-write-list");
const NOT_TEXT: Misfit = ("problem-not-text", "fix-write-quotes");
const NOT_A_NUMBER: Misfit = ("problem-not-number", "fix-write-number");
const NOT_WHOLE: Misfit = ("problem-not-whole", "fix-write-digits");
const NOT_WHOLE_FROM_0: Misfit = ("problem-not-whole-from-0", "fix-write-digits");
const NEITHER_TRUE_NOR_FALSE: Misfit = ("problem-not-bool", "fix-write-bool");

/// Notes that a value is of the wrong kind.
fn misfit<T>(
    place: &str,
    (problem, fix): Misfit,
    found: &Value,
    problems: &mut Vec<Problem>,
) -> Option<T> {
    let values = [("found", &*found.quoted())];
    problems.push(Problem::of(place, (problem, &values), (fix, &[])));
    None
}

/// Reads one of a few words.
pub fn one_of<T: Copy>(
    value: &Value,
    place: &str,
    words: &[(&str, T)],
    problems: &mut Vec<Problem>,
) -> Option<T> {
    let known = words
        .iter()
        .find(|(word, _)| matches!(value, Value::Text(text) if text == word));
    if let Some(&(_, meaning)) = known {
        return Some(meaning);
    }
    let words: Vec<&str> = words.iter().map(|&(word, _)| word).collect();
    problems.push(Problem::of(
        place,
        ("problem-unknown-word", &[("found", &value.quoted())]),
        ("fix-use-one-of", &[("names", &words.join(", "))]),
    ));
    None
}

/// Takes the `kind` of an item, a `coupling` or an `element`, out of its fields; one of `kinds`.
pub(crate) fn tagged(
    item: Value,
    place: &str,
    what: &str,
    kinds: &[&str],
    problems: &mut Vec<Problem>,
) -> Option<(String, Value)> {
    tagged_by("kind", item, place, what, kinds, problems)
}

/// The same by another field than `kind`.
pub(crate) fn tagged_by(
    tag: &str,
    item: Value,
    place: &str,
    what: &str,
    kinds: &[&str],
    problems: &mut Vec<Problem>,
) -> Option<(String, Value)> {
    let mut fields = object(item, place, problems)?;
    let kind = removed(&mut fields, tag);
    let quoted = kind.as_ref().map(Value::quoted).unwrap_or_default();
    let problem = match kind {
        Some(Value::Text(kind)) if kinds.contains(&kind.as_str()) => {
            return Some((kind, Value::Object(fields)));
        }
        Some(Value::Text(_)) => "problem-unknown-kind",
        Some(_) => "problem-kind-not-text",
        None => "problem-missing",
    };
    problems.push(Problem::of(
        &within(place, tag),
        (problem, &[("found", &quoted), ("what", what)]),
        ("fix-use-one-of", &[("names", &kinds.join(", "))]),
    ));
    None
}

/// Reads a whole number and makes what it counts of it.
pub(crate) fn count<T: TryFrom<i64, Error = String>>(
    value: &Value,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<T> {
    let Some(count) = value.as_i64() else {
        return misfit(place, NOT_WHOLE, value, problems);
    };
    let allowed = T::try_from(count);
    allowed
        .map_err(|problem| problems.push(Problem::new(place, problem, word("fix-write-allowed"))))
        .ok()
}

impl Read for Value {
    fn read(value: Value, _: &str, _: &mut Vec<Problem>) -> Option<Self> {
        Some(value)
    }
}

impl Read for String {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        match value {
            Value::Text(text) => Some(text),
            other => misfit(place, NOT_TEXT, &other, problems),
        }
    }
}

impl Read for f64 {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let number = value.as_f64();
        number.or_else(|| misfit(place, NOT_A_NUMBER, &value, problems))
    }
}

impl Read for bool {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        match value {
            Value::Bool(value) => Some(value),
            other => misfit(place, NEITHER_TRUE_NOR_FALSE, &other, problems),
        }
    }
}

impl Read for u32 {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let number = value.as_i64().and_then(|number| number.try_into().ok());
        number.or_else(|| misfit(place, NOT_WHOLE_FROM_0, &value, problems))
    }
}

/// `null` where there is none.
impl<T: Read> Read for Option<T> {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        match value {
            Value::Null => Some(None),
            value => T::read(value, place, problems).map(Some),
        }
    }
}

impl<T: Read> Read for Vec<T> {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let before = problems.len();
        let read = list(entries(value, place, problems)?, place, problems);
        (problems.len() == before).then_some(read)
    }
}

/// A row of as many values as the field needs.
impl<T: Read, const N: usize> Read for [T; N] {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let read = Vec::read(value, place, problems)?;
        let found = read.len();
        let row = read.try_into().ok();
        if row.is_none() {
            let wanted = &*N.to_string();
            problems.push(Problem::of(
                place,
                (
                    "problem-row-length",
                    &[("wanted", wanted), ("found", &found.to_string())],
                ),
                ("fix-row-length", &[("wanted", wanted)]),
            ));
        }
        row
    }
}
