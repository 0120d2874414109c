//! The words and numbers of the diagram.

use levertrain_core::scenario::Element;
use levertrain_core::words::{said, word};
use levertrain_core::{Train, place_of};

use super::geometry::{Diagram, Ghost, Node};
use crate::draw::names::isolated;
use crate::draw::scene::Ink;
use crate::motion::live::Motion;

/// One thing that can be said of a node.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Saying {
    /// Its lines, one under the other.
    pub lines: Vec<Line>,
    /// Whether the shaft is named in it, which is worth doing once.
    pub names: bool,
}

/// One line of a label.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    /// What it says.
    pub text: String,
    /// Font size in CSS pixels.
    pub size: f64,
    /// Whether it is bold.
    pub bold: bool,
    /// Meaning.
    pub ink: Ink,
}

/// Size of the lettering of speeds, in CSS pixels.
pub(super) const VALUE_SIZE: f64 = 14.0;
const NAME_SIZE: f64 = 12.5;

impl Line {
    fn value(text: String, ink: Ink) -> Self {
        Self {
            text,
            size: VALUE_SIZE,
            bold: true,
            ink,
        }
    }

    fn name(text: String) -> Self {
        Self {
            text,
            size: NAME_SIZE,
            bold: false,
            ink: Ink::Text,
        }
    }
}

/// What can be said of a node, the fullest first: its members where no letter shows them, its
/// speed or state, its shaft's name, whether it is input or output. The last is the least.
pub(super) fn of_node(diagram: &Diagram<'_>, node: &Node) -> Vec<Saying> {
    let least = match node.motion {
        Motion::Free => Line::value(node.motion.word().to_owned(), Ink::Quiet),
        Motion::Fighting => Line::value(node.motion.word().to_owned(), node.motion.ink()),
        Motion::Held | Motion::Forward | Motion::Backward => {
            Line::value(diagram.axis.value(node.speed), node.motion.ink())
        }
    };
    let roles = node.roles_text.clone().map(|text| Line {
        bold: true,
        ..Line::name(text)
    });
    let head: Vec<Line> = roles.into_iter().chain([least.clone()]).collect();

    let train = diagram.live.train;
    let name = node_name(train, node);
    let mut tags: Vec<String> = Vec::new();
    let ends = [(node.input, "lever-input"), (node.output, "lever-output")];
    for (is_so, key) in ends {
        let word = word(key);
        if is_so && place_of(&name.to_ascii_lowercase(), &word.to_ascii_lowercase()).is_none() {
            tags.push(word.to_owned());
        }
    }
    tags.extend(holders(diagram, node));
    let tags = tags.join(", ");
    let tagged = !tags.is_empty();
    let named = tagged || node.roles_text.as_ref() != Some(&name);
    let both = tagged.then(|| format!("{name}, {tags}"));
    // In class there are more ways to say a name in little room.
    let on_page = diagram.naming.is_none();
    let halves = halves(&name).filter(|_| named && on_page);
    let ways: [(bool, &[&str], bool); 6] = [
        (named, &[both.as_ref().unwrap_or(&name)], true),
        (tagged, &[&name, &tags], true),
        (tagged && on_page, &[&name], true),
        (halves.is_some(), halves.as_slice().as_flattened(), true),
        (tagged, &[&tags], false),
        (head.len() > 1, &[], false),
    ];
    let mut sayings = Vec::new();
    for (is_so, more, names) in ways {
        if is_so {
            let mut lines = head.clone();
            lines.extend(more.iter().map(|&text| Line::name(text.to_owned())));
            sayings.push(Saying { lines, names });
        }
    }
    sayings.push(Saying {
        lines: vec![least],
        names: false,
    });
    sayings
}

/// What can be said of a node of the change being tried; `marked` where it is to be said that
/// it is one.
pub(super) fn of_ghost(diagram: &Diagram<'_>, ghost: &Ghost, marked: bool) -> Vec<Saying> {
    let value = Line {
        ink: Ink::Quiet,
        ..Line::name(diagram.axis.value(ghost.speed))
    };
    let word = marked.then(|| Line {
        text: word("lever-preview").to_owned(),
        ..value.clone()
    });
    let saying = |lines| Saying {
        lines,
        names: false,
    };
    let full = word.map(|word| saying(vec![value.clone(), word]));
    full.into_iter().chain([saying(vec![value])]).collect()
}

/// The name of the line at the input's speed.
pub(super) fn input_line(diagram: &Diagram<'_>) -> String {
    let words = diagram.axis.input_words();
    if diagram.live.motions.contains(&Motion::Fighting) {
        said("lever-blocked", &[("line", &words)])
    } else {
        words
    }
}

/// The heading of a lever. The numbers by which joined sets are told apart on the nodes stand
/// before their names, unless the names have them.
pub(super) fn heading(train: &Train, couplings: &[usize]) -> String {
    let label = |index: usize| train.scenario().couplings[index].facts().label();
    let named: Vec<String> = couplings
        .iter()
        .map(|&index| {
            let number = (index + 1).to_string();
            match label(index) {
                label if couplings.len() == 1 || place_of(label, &number).is_some() => {
                    isolated(label)
                }
                label => format!("{number} {}", isolated(label)),
            }
        })
        .collect();
    named.join(" + ")
}

fn node_name(train: &Train, node: &Node) -> String {
    let names: Vec<_> = node
        .bodies
        .iter()
        .map(|&body| isolated(train.body_label(body)))
        .collect();
    names.join(", ")
}

/// A long text of several words in two lines that are as long as each other, nearly; of names that are put together each
/// stays whole, and so does what is kept to itself.
pub(super) fn halves(text: &str) -> Option<[&str; 2]> {
    const LONG: usize = 12;
    /// The first byte of what [keeps a name to itself](isolated), and of other punctuation.
    const PUNCTUATION: u8 = 0xe2;
    let bytes = text.as_bytes();
    if bytes.len() < LONG || bytes.contains(&PUNCTUATION) {
        return None;
    }
    let joined = bytes.contains(&b'+');
    let is_gap = |at: usize| bytes[at] == b' ' && (!joined || bytes[at - 1] == b'+');
    let middle = bytes.len() / 2;
    let at = (0..middle).find_map(|off| {
        [middle + off, middle - off]
            .into_iter()
            .find(|&at| is_gap(at))
    })?;
    Some([text.get(..at)?, text.get(at + 1..)?])
}

/// The applied brakes on a node.
fn holders(diagram: &Diagram<'_>, node: &Node) -> Vec<String> {
    let train = diagram.live.train;
    let holds = |&index: &usize| {
        matches!(train.scenario().elements[index], Element::Brake(_))
            && node.bodies.contains(&train.ends(index)[0])
    };
    let holders = diagram.live.applied.iter().filter(holds);
    holders
        .map(|index| isolated(train.scenario().elements[index].label()))
        .collect()
}
