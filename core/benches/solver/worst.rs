//! The hardest scenarios that the format allows, each named by what it has most of.

use serde_json::{Value, json};

/// A scenario file.
pub struct Worst {
    /// What it has most of.
    pub name: &'static str,
    /// Its text.
    pub text: String,
}

/// Large prime tooth counts: nothing cancels.
const TEETH: [u32; 12] = [997, 991, 983, 977, 971, 967, 953, 947, 941, 937, 929, 919];

/// All of them.
pub fn files() -> Vec<Worst> {
    let brakes_and_clutches = |index: usize| match index % 2 {
        0 => json!({"kind": "brake", "shaft": shaft(index + 1)}),
        _ => json!({"kind": "clutch", "between": [shaft(index), shaft(index + 7)]}),
    };
    let one_way = |shaft: String, against: String, locks: &str| json!({"kind": "one-way", "shaft": shaft, "against": against, "locks": locks});
    let housing = || "housing".to_owned();
    let on_suns = |index: usize| match index {
        0..11 => one_way(sun(index), housing(), "backward"),
        _ => one_way(sun(index - 11), carrier(index - 11), "forward"),
    };
    // All turn as one: every slip is zero, and many sets can hold the rest.
    let between = |index: usize| {
        let far = (index * 5 + 1 + index / 11) % 11;
        one_way(sun(index % 11), carrier(far), "backward")
    };
    // With five clutches no two ranges apply the same.
    let between_clutches = |index: usize| match index {
        0..5 => json!({"kind": "clutch", "between": [sun(index), carrier(10 - index)]}),
        _ => between(index),
    };
    let half = |index: usize| match index {
        0..8 => json!({"kind": "clutch", "between": [sun(index), carrier(10 - index)]}),
        _ => between(index),
    };
    vec![
        file("most sets and elements", web(), brakes_and_clutches, "x"),
        file("longest labels", web(), brakes_and_clutches, "Ü"),
        file(
            "most brakes",
            web(),
            |x| json!({"kind": "brake", "shaft": shaft(x + 1)}),
            "x",
        ),
        file("most one-way clutches", chain(), on_suns, "x"),
        file("one-way clutches across", chain(), between, "x"),
        file("the same and clutches", chain(), between_clutches, "x"),
        file(
            "one-way clutches all parallel",
            chain(),
            |_| one_way(sun(0), housing(), "backward"),
            "x",
        ),
        file(
            "most one-way clutches on sets",
            web(),
            |x| one_way(shaft(x + 1), housing(), "backward"),
            "x",
        ),
        file("half of them one-way clutches across", chain(), half, "x"),
        driving_in_all_ranges(),
    ]
}

/// Eleven sets in a row of which each is held by its sun, or five of them locked instead: all ranges drive.
fn driving_in_all_ranges() -> Worst {
    let element = |index: usize| match index {
        0..5 => json!({"kind": "clutch", "between": [sun(index), carrier(index)]}),
        _ => json!({"kind": "brake", "shaft": sun(index - 5)}),
    };
    let applied = |place: usize, range: usize| match place {
        0..5 => range >> place & 1 == 1,
        5..10 => range >> (place - 5) & 1 == 0,
        _ => true,
    };
    file_where("all ranges drive", chain(), element, "x", applied)
}

/// Shafts and couplings.
struct Gears {
    shafts: Vec<String>,
    couplings: Vec<[String; 3]>,
}

fn shaft(index: usize) -> String {
    format!("s{}", index % 24)
}

fn sun(set: usize) -> String {
    format!("sun{set}")
}

fn carrier(set: usize) -> String {
    format!("carrier{set}")
}

/// Twelve sets on 24 shafts, each shaft in one or two of them.
fn web() -> Gears {
    let members = |set: usize| [2 * set, 2 * set + 1, 2 * set + 5].map(shaft);
    Gears {
        shafts: (0..24).map(shaft).collect(),
        couplings: (0..12).map(members).collect(),
    }
}

/// Eleven sets in a row, each carrier driving the next ring.
fn chain() -> Gears {
    let ring = |set: usize| {
        if set == 0 {
            "in".to_owned()
        } else {
            carrier(set - 1)
        }
    };
    let shafts = std::iter::once("in".to_owned());
    Gears {
        shafts: shafts
            .chain((0..11).map(sun))
            .chain((0..11).map(carrier))
            .collect(),
        couplings: (0..11)
            .map(|set| [sun(set), ring(set), carrier(set)])
            .collect(),
    }
}

/// The file with 16 elements and 32 ranges: the first five elements count the ranges, so that all differ.
fn file(name: &'static str, gears: Gears, element: impl Fn(usize) -> Value, letter: &str) -> Worst {
    file_where(name, gears, element, letter, |place, range| match place {
        0..5 => range >> place & 1 == 0,
        _ => !(place * 7 + range).is_multiple_of(3),
    })
}

/// The same, where it is said which of those that can be applied a range applies, by their place among them.
fn file_where(
    name: &'static str,
    gears: Gears,
    element: impl Fn(usize) -> Value,
    letter: &str,
    applies: impl Fn(usize, usize) -> bool,
) -> Worst {
    let label = |what: &str, index: usize| {
        let start = format!("{what} {index} ");
        let rest = 40 - start.chars().count();
        start + &letter.repeat(rest)
    };
    let shafts: Vec<Value> = gears
        .shafts
        .iter()
        .enumerate()
        .map(|(index, id)| json!({"id": id, "label": label("Shaft", index)}))
        .collect();
    let couplings: Vec<Value> = gears
        .couplings
        .iter()
        .enumerate()
        .map(|(index, [sun, ring, carrier])| {
            json!({"kind": "planetary", "id": format!("p{index}"), "label": label("Set", index),
                "sun": {"shaft": sun, "teeth": TEETH[11 - index] / 2},
                "ring": {"shaft": ring, "teeth": TEETH[index]},
                "carrier": carrier, "pinion": {"teeth": 200, "count": 3}})
        })
        .collect();
    let elements: Vec<Value> = (0..16)
        .map(|index| {
            let mut element = element(index);
            element["id"] = json!(format!("e{index}"));
            element["label"] = json!(label("Element", index));
            element
        })
        .collect();
    let applied = |range: usize| {
        let can_be = elements
            .iter()
            .filter(|element| element["kind"] != "one-way");
        let ids = can_be
            .enumerate()
            .filter(|(place, _)| applies(*place, range));
        ids.map(|(_, element)| element["id"].clone())
            .collect::<Vec<Value>>()
    };
    let ranges: Vec<Value> = (0..32)
        .map(|index| {
            json!({"id": format!("r{index}"), "label": label("Range", index), "applied": applied(index)})
        })
        .collect();
    let text = json!({"format": 1, "name": format!("Worst: {name}"),
        "input": gears.shafts[0], "output": gears.shafts[gears.shafts.len() - 1],
        "shafts": shafts, "couplings": couplings, "elements": elements, "ranges": ranges});
    Worst {
        name,
        text: text.to_string(),
    }
}
