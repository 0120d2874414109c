//! What differs between two scenarios, kept small: of each list only the items between the first and
//! the last that differ.

use crate::model::coupling::Coupling;
use crate::model::scenario::{Converter, Element, Engine, Load, Range, Scenario, Shaft};

/// What takes one scenario to another, and back.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Difference {
    name: Change<String>,
    about: Change<String>,
    input: Change<String>,
    output: Change<String>,
    housing_label: Change<Option<String>>,
    shafts: Splice<Shaft>,
    couplings: Splice<Coupling>,
    elements: Splice<Element>,
    ranges: Splice<Range>,
    engine: Change<Option<Engine>>,
    converter: Change<Option<Converter>>,
    load: Change<Option<Load>>,
    dynamics: Change<Option<String>>,
    vehicle: Change<Option<String>>,
    sources: Change<Option<String>>,
}

/// A value before and after, where it differs.
type Change<T> = Option<Box<[T; 2]>>;

/// The items of a list from `at` on, before and after.
#[derive(Debug, Clone, PartialEq)]
struct Splice<T> {
    at: usize,
    items: [Vec<T>; 2],
}

/// Which of the two scenarios.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Before,
    After,
}

macro_rules! fields {
    ($each:ident) => {
        $each!(
            (name about input output housing_label engine converter load dynamics vehicle sources)
            (shafts couplings elements ranges)
        )
    };
}

impl Difference {
    pub(super) fn between(before: &Scenario, after: &Scenario) -> Self {
        macro_rules! made {
            (($($value:ident)*) ($($list:ident)*)) => {
                Self {
                    $($value: change(&before.$value, &after.$value),)*
                    $($list: Splice::between(&before.$list, &after.$list),)*
                }
            };
        }
        fields!(made)
    }

    /// Whether nothing differs.
    pub(super) fn is_none(&self) -> bool {
        macro_rules! all {
            (($($value:ident)*) ($($list:ident)*)) => {
                $(self.$value.is_none())&&* $(&& self.$list.items.iter().all(Vec::is_empty))*
            };
        }
        fields!(all)
    }

    /// Makes of the scenario on the other side the one on this.
    pub(super) fn take_to(&self, side: Side, scenario: &mut Scenario) {
        macro_rules! put {
            (($($value:ident)*) ($($list:ident)*)) => {
                $(if let Some(values) = &self.$value {
                    scenario.$value.clone_from(&values[side as usize]);
                })*
                $(self.$list.take_to(side, &mut scenario.$list);)*
            };
        }
        fields!(put);
    }
}

fn change<T: Clone + PartialEq>(before: &T, after: &T) -> Change<T> {
    (before != after).then(|| Box::new([before.clone(), after.clone()]))
}

impl<T: Clone + PartialEq> Splice<T> {
    fn between(before: &[T], after: &[T]) -> Self {
        let alike = |pair: &(&T, &T)| pair.0 == pair.1;
        let at = before.iter().zip(after).take_while(alike).count();
        let (before, after) = (&before[at..], &after[at..]);
        let tail = before.iter().rev().zip(after.iter().rev());
        let tail = tail.take_while(alike).count();
        let items = [before, after].map(|list| list[..list.len() - tail].to_vec());
        Self { at, items }
    }

    fn take_to(&self, side: Side, list: &mut Vec<T>) {
        let gone = self.items[1 - side as usize].len();
        let end = list.len().min(self.at + gone);
        // By hand: what the library has for it is several times as much code for each kind of list.
        let tail = list.split_off(end);
        list.truncate(self.at);
        list.extend_from_slice(&self.items[side as usize]);
        list.extend(tail);
    }
}
