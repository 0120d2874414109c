//! Trains with more than one source, or more than one output.

mod by_hand;
mod data;
mod laws;
mod region;
mod stand;
mod sympy;

use anyhow::{Context, Result, anyhow};
use levertrain_core::sources::{Efforts, Ports, Speeds};
use levertrain_core::{ElementSet, Fraction, Train};
use levertrain_tests::files;

/// The train of a scenario, by the end of its file's name, with its ports.
fn scenario(ends: &str) -> Result<(Train, Ports)> {
    let mut files = files::scenarios()?.into_iter();
    let file = files.find(|file| file.stem.ends_with(ends));
    let train = parsed(&file.with_context(|| format!("no {ends}"))?.text)?;
    let (ports, problems) = Ports::of(&train);
    anyhow::ensure!(problems.is_empty(), "{problems:?}");
    Ok((train, ports))
}

fn parsed(text: &str) -> Result<Train> {
    Train::parse(text).map_err(|problems| anyhow!("{problems:?}"))
}

fn applied(train: &Train, ids: &[&str]) -> Result<ElementSet> {
    let set = train.element_set(ids.iter().copied());
    set.map_err(|problems| anyhow!("{problems:?}"))
}

fn shaft(train: &Train, id: &str) -> Result<usize> {
    let mut shafts = train.scenario().shafts.iter();
    shafts
        .position(|shaft| shaft.id == id)
        .with_context(|| format!("no {id}"))
}

fn fraction(num: i64, den: i64) -> Result<Fraction> {
    Fraction::new(num, den).context("a denominator")
}

fn dot(factors: &[Fraction], values: &[Fraction]) -> Fraction {
    let products = factors.iter().zip(values).map(|(a, b)| a * b);
    products.fold(Fraction::ZERO, |sum, x| &sum + &x)
}

/// The sum of all powers at whole speeds and torques of what can be given; all ports' speeds are given or
/// decided.
fn power_sum(train: &Train, applied: ElementSet, ports: &Ports) -> Result<Fraction> {
    let shafts: Vec<usize> = ports.list.iter().map(|port| port.shaft).collect();
    let speeds = Speeds::of(train, applied, &shafts);
    let efforts = Efforts::of(train, applied, ports, &[]);
    let whole = |count: usize| -> Vec<Fraction> {
        let numbers = (1..).map(|n: i64| Fraction::from(n * n - 5 * n + 3));
        numbers.take(count).collect()
    };
    let turns = whole(speeds.given().len());
    let torques = whole(efforts.given().len());
    let mut sum = Fraction::ZERO;
    for (index, port) in ports.list.iter().enumerate() {
        let speed = speeds.shaft(port.shaft).context("a decided port")?;
        let power = &dot(speed, &turns) * &dot(efforts.port(index), &torques);
        sum = &sum + &power;
    }
    Ok(sum)
}
