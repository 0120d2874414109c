//! The words and numbers of the flow drawing.

use levertrain_core::Combination;
use levertrain_core::Train;
use levertrain_core::words::{Catalogue, Words, listed, number, said, word};

use super::network::{Network, Node, Place, Port, Still};
use crate::motion::powers::NoPowers;

/// What the inks of bands mean.
pub(super) const KEY: [&str; 2] = ["flow-key-through", "flow-key-round"];

/// What a port is called, and its power.
pub(super) fn of_port(train: &Train, node: &Node, port: &Port) -> [String; 2] {
    let name = match node.place {
        Place::Set(coupling) => member(train, coupling, port.member),
        Place::Clutch(_) => node.name(train),
    };
    [name, share(port.power)]
}

/// A power in words: a percentage of the input's, or how many times the input's it is.
pub(super) fn share(power: f64) -> String {
    let size = power.abs();
    // What rounds to 100 % is not called more than the input.
    if size > 1.0005 {
        said("flow-times-input", &[("times", &number(size, 3))])
    } else {
        format!(
            "{} %",
            number(size * 100.0, if size >= 0.9995 { 3 } else { 2 })
        )
    }
}

/// What is said of the members of a set that carry no power: the words, and whether the member
/// is held.
pub(super) fn of_still(train: &Train, node: &Node, coupling: usize) -> Vec<([String; 2], bool)> {
    let without_power = word("flow-no-power").to_owned();
    if node.ports.is_empty() {
        return vec![([word("flow-idle").to_owned(), without_power], false)];
    }
    let still = node.still.iter().map(|still: &Still| {
        let name = member(train, coupling, still.member);
        let key = match still.held {
            true => "flow-member-held",
            false => "flow-member-idle",
        };
        let still_standing = said(key, &[("member", &name)]);
        ([still_standing, without_power.clone()], still.held)
    });
    still.collect()
}

/// A member with the number of its set: "carrier 1".
pub(super) fn member(train: &Train, coupling: usize, member: usize) -> String {
    let facts = train.scenario().couplings[coupling].facts();
    let role = facts.members()[member].role;
    let number = facts.label().rsplit(' ').next().unwrap_or_default();
    let counted = !number.is_empty() && number.chars().all(|c| c.is_ascii_digit());
    if counted && role.is_of_set() {
        format!("{} {number}", role.word())
    } else {
        role.word().to_owned()
    }
}

/// What stands below the drawing: how power goes round, if it does.
pub(super) fn of_loop(train: &Train, network: &Network) -> Option<String> {
    let (largest, port) = network.largest_loop()?;
    let round: Vec<_> = network
        .nodes
        .iter()
        .filter(|node| node.ports.iter().any(|port| port.looped))
        .map(|node| node.name(train))
        .collect();
    let [name, share] = of_port(train, largest, port);
    let key = if share.ends_with('%') {
        "flow-loop-share"
    } else {
        "flow-loop"
    };
    let values = [
        ("sets", &*listed(&round)),
        ("member", &name),
        ("share", &share),
    ];
    Some(Catalogue::spoken().write(key, 0, &values))
}

/// What is said in place of a drawing where there is nothing to draw.
pub(super) fn of_nothing(combination: &Combination<'_>, why: NoPowers) -> String {
    match why {
        NoPowers::Undivided => Catalogue::spoken().plain("flow-undivided").to_owned(),
        NoPowers::NoDrive => {
            let words = Words::of(combination);
            let values = [("state", words.state), ("answer", &words.answer)];
            Catalogue::spoken().write("flow-none", 0, &values)
        }
    }
}
