//! Fault finding on the page says what the core says.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_core::faults::{Explanations, Fault, Faulty, Observed, Rank, Search};
use levertrain_core::words::counted;
use levertrain_tests::browser::{Page, View, page};
use levertrain_tests::worst;
use serde_json::{Value, json};

use crate::by_core;

const EIGHT: &str = "05-eight-speed-four-sets";
const ONE_WAY: &str = "07-three-speed-one-way";
const STATUS: &str = "probe.one('[data-part=faults-found]').textContent";

/// Chooses in a list, as a keyboard and a finger do.
fn choose(page: &Page, list: &str, value: &str) -> Result<()> {
    page.run(
        "const node = probe.one(args[0]); node.focus(); node.value = args[1]; \
         if (node.value !== args[1]) throw Error(`${args[1]} is not offered`); \
         node.dispatchEvent(new Event('change', { bubbles: true }))",
        json!([list, value]),
    )
}

fn pick(page: &Page, place: &str, value: &str) -> Result<()> {
    choose(page, &format!("#faults-{place}"), value)
}

fn observe(page: &Page, trial: &str, word: &str) -> Result<()> {
    choose(page, &format!("[data-seen='{trial}']"), word)
}

/// The outcomes of the table of what faults do, one a trial.
fn outcomes(page: &Page) -> Result<Vec<Option<String>>> {
    page.get(
        "probe.all('[data-part=faults-does] tbody tr').map(({ dataset }) => dataset.outcome ?? null)",
        Value::Null,
    )
}

/// The explanations that are listed, those that are folded too, as numbers of faults in their order.
fn listed(page: &Page) -> Result<Vec<String>> {
    page.run(
        "for (const node of probe.all('.faults-groups details')) node.open = true",
        Value::Null,
    )?;
    page.until(
        "what is folded is filled",
        "probe.all('.faults-groups details').every((node) => node.children.length > 1)",
    )?;
    page.get(
        "probe.all('.faults-groups [data-faults]').map(({ dataset }) => dataset.faults)",
        Value::Null,
    )
}

/// Waits until it is said how many explanations there are.
fn until_found(
    page: &Page,
    search: &Search,
    observed: &[(usize, Observed)],
) -> Result<Explanations> {
    let mut all = vec![None; search.trials().len()];
    for (trial, noted) in observed {
        all[*trial] = Some(noted.clone());
    }
    let found = Explanations::of(search, &all);
    let count = |rank| {
        let groups = found.groups.iter().filter(|group| group.rank == rank);
        groups.map(|group| group.sets.len()).sum()
    };
    let [single, both] = [
        counted("page-faults-found-single", count(Rank::Single)),
        counted("page-faults-found-both", count(Rank::Both)),
    ];
    page.until("all are found", &format!("{STATUS} === '{single} {both}'"))?;
    Ok(found)
}

fn numbers(search: &Search, found: &Explanations) -> Result<Vec<String>> {
    let number = |fault: &Fault| search.faults().iter().position(|known| known == fault);
    let sets = found.groups.iter().flat_map(|group| &group.sets);
    sets.map(|set| {
        let numbers: Option<Vec<String>> = set
            .iter()
            .map(|x| number(x).map(|n| n.to_string()))
            .collect();
        Ok(numbers.context("every fault is in the list")?.join(","))
    })
    .collect()
}

/// Catches outcomes of other faults or ranges, and a stage that shows the broken train.
#[test]
fn what_faults_do_is_what_the_core_says() -> Result<()> {
    let train = by_core::train(ONE_WAY)?;
    let search = Search::new(&train);
    let element = |id: &str| train.element(id).context("no such element");
    let rows = [
        (
            vec![Fault::DoesNotHold(element("Q")?)],
            ["does-not-hold Q ", ""],
        ),
        (
            vec![
                Fault::WillNotApply(element("W")?),
                Fault::BrokenSpline(1, 2),
            ],
            ["will-not-apply W ", "broken-spline p2 ring"],
        ),
    ];
    page::open(View::LAPTOP, &format!("#s={ONE_WAY}&on=H"), |page| {
        page.unfold("faults")?;
        let before = page.seen()?;
        for (faults, keys) in &rows {
            for (place, key) in ["first", "second"].iter().zip(keys) {
                pick(page, place, key)?;
            }
            let faulty = Faulty::new(&train, faults);
            let trials = search.trials().iter();
            let expected: Vec<Option<String>> = trials
                .map(|trial| Some(faulty.outcome(trial).key().to_owned()))
                .collect();
            let actual = outcomes(page)?;
            ensure!(
                actual == expected,
                "{faults:?}: {actual:?}, not {expected:?}"
            );
        }
        // Without W the sun is free, and Q holds carrier 2 as in 1st: 2.259.
        pick(page, "second", "")?;
        let second: String = page.get(
            "probe.one('[data-part=faults-does] [data-trial=\"2\"] .outcome').textContent",
            Value::Null,
        )?;
        ensure!(second == "drives at 2.259, as 1st should", "{second}");
        let why: String = page.get(
            "probe.one('[data-part=faults-does] [data-trial=\"2\"] details').textContent",
            Value::Null,
        )?;
        ensure!(why.contains("One-way Q locks Carrier 2"), "{why}");
        let after = page.seen()?;
        ensure!(before == after, "{before:?}, then {after:?}");
        // An element has one fault at most.
        let disabled: bool = page.get(
            "[...probe.one('#faults-second').options].filter(({ disabled }) => disabled) \
                .every(({ value }) => value.includes(' W ')) && \
             probe.one('#faults-second').querySelectorAll('option:disabled').length === 3",
            Value::Null,
        )?;
        ensure!(disabled, "two faults of one brake are offered");
        Ok(())
    })
}

/// Catches explanations that the core does not give, or not in its order, and a range to try next that is
/// another one.
#[test]
fn explanations_are_those_of_the_core() -> Result<()> {
    let train = by_core::train(EIGHT)?;
    let search = Search::completed(&train);
    page::open(View::LAPTOP, &format!("#s={EIGHT}"), |page| {
        page.unfold("faults")?;
        let start: String = page.get(STATUS, Value::Null)?;
        observe(page, "1", "right")?;
        let nothing: String = page.get(STATUS, Value::Null)?;
        ensure!(
            start != nothing && nothing.contains("Nothing wrong"),
            "{nothing}"
        );
        observe(page, "3", "lost")?;
        let mut observed = vec![(0, Observed::Right), (2, Observed::Lost)];
        let found = until_found(page, &search, &observed)?;
        let (actual, expected) = (listed(page)?, numbers(&search, &found)?);
        ensure!(actual == expected, "{actual:?}, not {expected:?}");

        // The range to try next comes on stage, and its list has the focus, ready to be told.
        let next = found.next.context("some range tells them apart")?;
        let range = &train.scenario().ranges[next.trial];
        page.click("[data-part=faults-try]")?;
        let seen = page.seen()?;
        ensure!(
            seen.range.as_deref() == Some(&range.id),
            "{seen:?}, not {}",
            range.id
        );
        let focused = "document.querySelector('lever-train').shadowRoot.activeElement.dataset.seen";
        let at: String = page.get(focused, Value::Null)?;
        ensure!(at == range.id, "{at}");
        observe(page, &range.id, "right")?;
        observed.push((next.trial, Observed::Right));
        let fewer = until_found(page, &search, &observed)?;
        let (actual, expected) = (listed(page)?, numbers(&search, &fewer)?);
        ensure!(actual == expected, "{actual:?}, not {expected:?}");

        // One that is pressed is shown above, with what it does.
        page.click(".faults-groups [data-faults]")?;
        let first = &fewer.groups[0].sets[0];
        let faulty = Faulty::new(&train, first);
        let trials = search.trials().iter();
        let expected: Vec<Option<String>> = trials
            .map(|trial| Some(faulty.outcome(trial).key().to_owned()))
            .collect();
        ensure!(outcomes(page)? == expected, "{first:?}");
        Ok(())
    })
}

/// Catches a count that is read out over and over while the search goes on, or not at all.
#[test]
fn the_count_is_said_once_a_change() -> Result<()> {
    let train = by_core::train(EIGHT)?;
    let search = Search::completed(&train);
    page::open(View::LAPTOP, &format!("#s={EIGHT}"), |page| {
        page.unfold("faults")?;
        page.run(
            "window.said = []; const status = probe.one('[data-part=faults-found]'); \
             if (status.role !== 'status') throw Error('nothing is read out'); \
             new MutationObserver(() => said.push(status.textContent)) \
                .observe(status, { childList: true, characterData: true, subtree: true })",
            Value::Null,
        )?;
        observe(page, "1", "slips")?;
        until_found(page, &search, &[(0, Observed::Slips)])?;
        observe(page, "2", "right")?;
        until_found(page, &search, &[(0, Observed::Slips), (1, Observed::Right)])?;
        let said: Vec<String> = page.get("said", Value::Null)?;
        ensure!(said.len() == 2 && said[0] != said[1], "{said:?}");
        Ok(())
    })
}

/// Catches what was picked and observed being lost as the panel is folded or the train is changed, or kept for
/// another train.
#[test]
fn it_lasts_as_long_as_the_train() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={ONE_WAY}"), |page| {
        page.unfold("faults")?;
        let state = "[probe.one('#faults-first').value, probe.one('[data-seen=R]').value, probe.one('[data-seen=\"1\"]').value]";
        let kept = |page: &Page| page.get::<[String; 3]>(state, Value::Null);
        pick(page, "first", "slips V ")?;
        observe(page, "R", "drives")?;
        observe(page, "1", "engine-braking")?;
        let expected = ["slips V ", "drives", "engine-braking"].map(str::to_owned);
        ensure!(kept(page)? == expected, "{:?}", kept(page)?);
        for _ in 0..2 {
            page.click("[data-part=faults] > summary")?;
        }
        ensure!(kept(page)? == expected, "folded: {:?}", kept(page)?);
        page.unfold("edit")?;
        page.until(
            "the form has come",
            "probe.one('[data-key=\"teeth p1 0\"]')",
        )?;
        page.run(
            "const field = probe.one('[data-key=\"teeth p1 0\"]'); field.value = '32'; \
             field.dispatchEvent(new Event('input', { bubbles: true })); \
             field.dispatchEvent(new Event('change', { bubbles: true }))",
            Value::Null,
        )?;
        let ratio = "probe.one('[data-part=faults-explains] [data-trial=\"1\"] td').textContent";
        page.until(
            "it is another train",
            &format!("!{ratio}.startsWith('2.259')"),
        )?;
        ensure!(kept(page)? == expected, "changed: {:?}", kept(page)?);
        page.choose("02-three-speed-common-sun")?;
        page.until(
            "it is another train",
            "!probe.one('#faults-first option[value^=stays-locked]')",
        )?;
        let cleared = ["", "", ""].map(str::to_owned);
        ensure!(kept(page)? == cleared, "another: {:?}", kept(page)?);
        Ok(())
    })
}

/// Catches a page in which nothing else has its turn while the hardest train is searched, one that tells nothing
/// before the end, and a search that cannot be given up.
#[test]
fn a_long_search_goes_on_beside_the_page() -> Result<()> {
    let mut hardest = worst::files().into_iter();
    let hardest = hardest.find(|worst| worst.name == "the same and clutches");
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join("hardest-faults.json");
    fs::write(&file, hardest.context("no such file")?.text)?;
    page::open(View::LAPTOP, "", |page| {
        page.open_file(&file)?;
        page.unfold("faults")?;
        page.run(
            "window.ticks = 0; setInterval(() => (ticks += 1), 10)",
            Value::Null,
        )?;
        observe(page, "r0", "lost")?;
        page.run("ticks = 0", Value::Null)?;
        page.until(
            "some are listed, and timers have their turn, while it goes on",
            "!probe.one('.faults progress').hidden && probe.one('.faults progress').value < 1 && \
                probe.one('.faults-groups [data-faults]') && ticks > 30",
        )?;
        page.click("[data-part=faults-clear]")?;
        page.until(
            "it is given up",
            "probe.one('.faults progress').hidden && !probe.one('.faults-groups [data-faults]')",
        )?;
        let begin: String = page.get(STATUS, Value::Null)?;
        ensure!(begin.starts_with("Say what was observed"), "{begin}");
        Ok(())
    })
}

/// Catches what a finger cannot hit. That nothing is too wide, and that all has a name, is checked of all panels.
#[test]
fn a_finger_hits_everything() -> Result<()> {
    page::open(View::PHONE, &format!("#s={ONE_WAY}"), |page| {
        page.unfold("faults")?;
        pick(page, "first", "will-not-apply W ")?;
        observe(page, "2", "lost")?;
        page.until("all are found", "probe.one('.faults-groups [data-faults]')")?;
        listed(page)?;
        let small: Vec<String> = page.get(
            "probe.all('.faults :is(select, button, summary)') \
                .filter((node) => node.getBoundingClientRect().height < 44) \
                .map((node) => `${node.outerHTML.slice(0, 90)}: ${node.getBoundingClientRect().height}`)",
            Value::Null,
        )?;
        ensure!(small.is_empty(), "{small:#?}");
        let count: usize = page.get(
            "probe.all('.faults :is(select, button, summary)').length",
            Value::Null,
        )?;
        ensure!(count > 15, "{count}");
        Ok(())
    })
}
