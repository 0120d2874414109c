//! Tasks and directions as a file has them.

use levertrain_exact::Fraction;

use super::decimal::number;
use super::task::{Kind, Part, Task};
use crate::base::element_set::ElementSet;
use crate::base::problem::Problem;
use crate::json::{Fields, Value, one_of, tagged_by};
use crate::train::{Train, unknown};

/// Most combinations of a task, and most ranges to put in order.
pub(super) const MOST_OFFERED: usize = 12;

/// Which way a shaft turns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// As the input does.
    Forward,
    /// The other way.
    Backward,
    /// Not at all.
    Still,
    /// Nothing decides it.
    Free,
}

impl Way {
    /// All of them, as they are offered.
    pub const ALL: [Self; 4] = [Self::Forward, Self::Backward, Self::Still, Self::Free];

    /// The way of a speed.
    pub fn of(speed: Option<&Fraction>) -> Self {
        match speed.map(Fraction::signum) {
            None => Self::Free,
            Some(0) => Self::Still,
            Some(1..) => Self::Forward,
            Some(_) => Self::Backward,
        }
    }

    /// What it is known by.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Forward => "forward",
            Self::Backward => "backward",
            Self::Still => "still",
            Self::Free => "free",
        }
    }
}

impl Part {
    pub(super) const ALL: &[(&'static str, Self)] = &[
        ("held", Self::Held),
        ("driving", Self::Driving),
        ("driven", Self::Driven),
    ];

    pub(super) fn id(self) -> &'static str {
        let own = Self::ALL.iter().find(|(_, part)| *part == self);
        own.map_or("", |(id, _)| id)
    }
}

/// Reads a task about a train; `None` after noting at least one problem.
pub(super) fn read(
    train: &Train,
    value: Value,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Task> {
    let names: Vec<&str> = Kind::ALL.iter().map(|(name, _)| *name).collect();
    let (name, fields) = tagged_by("task", value, place, "task", &names, problems)?;
    let (_, kind) = Kind::ALL.iter().find(|(known, _)| *known == name)?;
    let wanted: &[&str] = match kind {
        Kind::Reach => &["ratio"],
        Kind::Members => &["range", "set", "part"],
        Kind::Direction | Kind::Speed => &["range", "shaft"],
        Kind::Neutral => &["applied"],
        Kind::TieUp => &["among"],
        Kind::Order => &["ranges"],
        Kind::Teeth => &["range", "set", "ratio"],
        Kind::Failed => &["seed"],
    };
    let before = problems.len();
    let mut reader = Reader {
        train,
        place,
        found: Vec::new(),
    };
    let task = {
        let mut fields = Fields::of(fields, place, wanted, &[], problems)?;
        reader.task(*kind, &mut fields)
    };
    problems.append(&mut reader.found);
    task.filter(|_| problems.len() == before)
}

/// Reads ranges by their ids; `None` after noting at least one problem.
pub(super) fn ranges_at(
    train: &Train,
    place: &str,
    ids: &[String],
    problems: &mut Vec<Problem>,
) -> Option<Vec<usize>> {
    let mut reader = Reader {
        train,
        place,
        found: Vec::new(),
    };
    let ranges = reader.ranges_of(place, ids);
    problems.append(&mut reader.found);
    ranges
}

struct Reader<'a> {
    train: &'a Train,
    place: &'a str,
    found: Vec<Problem>,
}

impl Reader<'_> {
    fn task(&mut self, kind: Kind, fields: &mut Fields<'_>) -> Option<Task> {
        Some(match kind {
            Kind::Reach => Task::Reach {
                ratio: self.ratio(fields)?,
            },
            Kind::Members => {
                let (range, set) = (self.range(fields), self.set(fields));
                let part: Value = fields.take("part")?;
                let place = self.within("part");
                let part = one_of(&part, &place, Part::ALL, &mut self.found);
                Task::Members {
                    range: range?,
                    set: set?,
                    part: part?,
                }
            }
            Kind::Direction => {
                let (range, shaft) = (self.range(fields), self.shaft(fields));
                Task::Direction {
                    range: range?,
                    shaft: shaft?,
                }
            }
            Kind::Speed => {
                let (range, shaft) = (self.range(fields), self.shaft(fields));
                Task::Speed {
                    range: range?,
                    shaft: shaft?,
                }
            }
            Kind::Neutral => Task::Neutral {
                applied: fields.take::<u32>("applied")? as usize,
            },
            Kind::TieUp => Task::TieUp {
                among: self.among(fields)?,
            },
            Kind::Order => Task::Order {
                ranges: self.ranges(fields)?,
            },
            Kind::Teeth => {
                let (range, set) = (self.range(fields), self.set(fields));
                let ratio = self.ratio(fields);
                Task::Teeth {
                    range: range?,
                    set: set?,
                    ratio: ratio?,
                }
            }
            Kind::Failed => Task::Failed {
                seed: fields.take("seed")?,
            },
        })
    }

    fn within(&self, field: &str) -> String {
        format!("{}.{field}", self.place)
    }

    fn ratio(&mut self, fields: &mut Fields<'_>) -> Option<Fraction> {
        let text: String = fields.take("ratio")?;
        let ratio = number(&text).filter(|ratio| !ratio.is_zero());
        if ratio.is_none() {
            self.found.push(Problem::of(
                &self.within("ratio"),
                ("problem-ratio", &[("found", &text)]),
                ("fix-ratio", &[]),
            ));
        }
        ratio
    }

    fn range(&mut self, fields: &mut Fields<'_>) -> Option<usize> {
        let id: String = fields.take("range")?;
        self.range_of(&self.within("range"), &id)
    }

    fn range_of(&mut self, place: &str, id: &str) -> Option<usize> {
        let ranges = &self.train.scenario().ranges;
        let ids = ranges.iter().map(|range| range.id.as_str());
        self.known("range", place, id, ids)
    }

    fn set(&mut self, fields: &mut Fields<'_>) -> Option<usize> {
        let id: String = fields.take("set")?;
        let sets = self.train.scenario().couplings.iter();
        let ids = sets.map(|set| set.facts().id());
        self.known("coupling", &self.within("set"), &id, ids)
    }

    fn shaft(&mut self, fields: &mut Fields<'_>) -> Option<usize> {
        let id: String = fields.take("shaft")?;
        let ids = self
            .train
            .scenario()
            .shafts
            .iter()
            .map(|shaft| shaft.id.as_str());
        self.known("shaft", &self.within("shaft"), &id, ids)
    }

    fn known<'i>(
        &mut self,
        what: &str,
        place: &str,
        id: &str,
        mut ids: impl Iterator<Item = &'i str> + Clone,
    ) -> Option<usize> {
        let all = ids.clone();
        let at = ids.position(|known| known == id);
        if at.is_none() {
            self.found.push(unknown(what, place, id, all));
        }
        at
    }

    fn among(&mut self, fields: &mut Fields<'_>) -> Option<Vec<ElementSet>> {
        let sets: Vec<Vec<String>> = fields.take("among")?;
        self.few(&self.within("among"), sets.len())?;
        let mut among = Vec::new();
        for ids in &sets {
            match self.train.element_set(ids.iter().map(String::as_str)) {
                Ok(set) => among.push(set),
                Err(problems) => self.found.extend(problems),
            }
        }
        Some(among)
    }

    fn ranges(&mut self, fields: &mut Fields<'_>) -> Option<Vec<usize>> {
        let ids: Vec<String> = fields.take("ranges")?;
        self.ranges_of(&self.within("ranges"), &ids)
    }

    fn ranges_of(&mut self, place: &str, ids: &[String]) -> Option<Vec<usize>> {
        self.few(place, ids.len())?;
        ids.iter().map(|id| self.range_of(place, id)).collect()
    }

    fn few(&mut self, place: &str, count: usize) -> Option<()> {
        if count <= MOST_OFFERED {
            return Some(());
        }
        self.found.push(Problem::of(
            place,
            ("problem-too-many-entries", &[("found", &count.to_string())]),
            ("fix-keep-at-most", &[("most", &MOST_OFFERED.to_string())]),
        ));
        None
    }
}
