//! What edits do to the drawing: what they do not touch stays, and what moves glides.

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::coupling::Coupling;
use levertrain_core::edit::text;
use levertrain_tests::files::scenarios;
use levertrain_web::draw::scene::Scene;
use levertrain_web::pictures::on_stage;
use levertrain_web::session::Session;
use serde_json::{Value, json};

use super::edit;

fn open(text: &str) -> Result<Session> {
    Session::open(text).map_err(|problems| anyhow!("{problems:?}"))
}

fn change(session: &mut Session, value: &Value) -> Result<()> {
    let made = session.edit(&edit(value)?, false);
    made.map_err(|problems| anyhow!("{value}: {problems:?}"))
}

/// Where along the axis the packs are, and which way they close: heights are those of the gears, which
/// follow their teeth.
fn places(session: &Session) -> String {
    let handles = session.stage().handles(session.train());
    let places = handles
        .iter()
        .map(|handle| format!("{} {:.0} {:?}; ", handle.id, handle.left, handle.closes));
    places.collect()
}

/// Catches a drawing that is laid out anew, and elements that are released, because a tooth or a name was
/// changed; and a way back that leads elsewhere.
#[test]
fn what_an_edit_does_not_touch_stays() -> Result<()> {
    for file in scenarios()? {
        let stem = &file.stem;
        let mut session = Session::open(&file.text).map_err(|problems| anyhow!("{problems:?}"))?;
        session.apply(
            session
                .train()
                .range(session.train().scenario().ranges.len() - 1),
        );
        session.settle();
        let (applied, before) = (session.applied(), places(&session));
        let start = text(session.train().scenario());
        let mut made = 0;
        for set in session.train().scenario().couplings.clone() {
            // Pairs of gears lead to axes of their own, which teeth move.
            if matches!(set, Coupling::GearPair(_)) {
                continue;
            }
            let id = set.facts().id().to_owned();
            let teeth = set.clone().parts().teeth[0].1.get() + 1;
            for value in [
                json!({"edit": "teeth", "set": id, "gear": 0, "teeth": teeth}),
                json!({"edit": "label-set", "set": id, "label": "Another name"}),
            ] {
                let edit = edit(&value)?;
                session
                    .edit(&edit, false)
                    .map_err(|problems| anyhow!("{problems:?}"))?;
                made += 1;
                ensure!(session.applied() == applied, "{stem}: {value}");
                ensure!(places(&session) == before, "{stem}: {value}");
            }
        }
        ensure!(
            session.depth() == [made, 0],
            "{stem}: {:?}",
            session.depth()
        );
        while session.undo() {
            made -= 1;
        }
        ensure!(
            made == 0 && text(session.train().scenario()) == start,
            "{stem}"
        );
        ensure!(
            session.applied() == applied && places(&session) == before,
            "{stem}"
        );
        let refused = edit(&json!({"edit": "name", "name": ""}))?;
        ensure!(session.edit(&refused, false).is_err(), "{stem}: no name");
        ensure!(text(session.train().scenario()) == start, "{stem}: refused");
    }
    Ok(())
}

/// Catches a change that is taken back and leaves the drawing as it was during it.
#[test]
fn a_step_back_is_drawn_as_before() -> Result<()> {
    let mut compared = 0;
    for file in scenarios()? {
        let mut session = Session::open(&file.text).map_err(|problems| anyhow!("{problems:?}"))?;
        let scenario = session.train().scenario().clone();
        let drawn = |session: &Session| -> Result<String> {
            let scene = levertrain_web::pictures::scene(session, "section", (1280.0, 400.0))?;
            levertrain_web::draw::svg(&scene, session.settings().palette)
                .map_err(|error| anyhow!(error))
        };
        session.settle();
        let before = drawn(&session)?;
        let element = scenario
            .elements
            .first()
            .map(|element| element.id().to_owned());
        for value in [
            json!({"edit": "add-set", "kind": "planetary", "at": 1}),
            json!({"edit": "remove-element", "element": element}),
            json!({"edit": "gap", "element": element, "gap": scenario.couplings.len()}),
        ] {
            session
                .edit(&edit(&value)?, false)
                .map_err(|problems| anyhow!("{problems:?}"))?;
            session.settle();
            // Some elements are in the room already that is chosen for them.
            let changes = drawn(&session)? != before;
            session.undo();
            session.settle();
            ensure!(
                drawn(&session)? == before,
                "{}: {value} taken back",
                file.stem
            );
            compared += usize::from(changes);
        }
    }
    ensure!(compared > 20, "{compared}");
    Ok(())
}

fn picture(session: &Session, drawing: &str) -> Result<Scene> {
    on_stage(session, drawing).map_err(|problem| anyhow!("{problem:?}"))
}

/// Where along the axis the name of each set stands.
fn names(session: &Session) -> Result<Vec<f64>> {
    let scene = picture(session, "section")?;
    let sets = session.train().scenario().couplings.iter();
    let names = sets.map(|set| {
        let name = set.facts().label();
        let found = scene.labels().find(|label| label.text == name);
        Ok(found.with_context(|| name.to_owned())?.at.x)
    });
    names.collect()
}

/// Catches sets that jump to another place instead of gliding, that never arrive, and a glide that begins
/// elsewhere than where the last one was.
#[test]
fn what_an_edit_moves_glides() -> Result<()> {
    const NEAR: f64 = 1.0;
    let apart = |one: &[f64], other: &[f64]| -> f64 {
        let pairs = one.iter().zip(other);
        pairs
            .map(|(one, other)| (one - other).abs())
            .fold(0.0, f64::max)
    };
    let mut seen = 0;
    for file in scenarios()? {
        let mut session = open(&file.text)?;
        let sets = session.train().scenario().couplings.clone();
        // Names are cut where they would not fit.
        if sets.len() < 2 || names(&session).is_err() {
            continue;
        }
        session.settle();
        let before = names(&session)?;
        // As the first set all move, as the order of the file is that of the axis.
        let last = sets.len() - 1;
        let value = json!({"edit": "move-set", "set": sets[last].facts().id(), "at": 0});
        change(&mut session, &value)?;
        let Ok(mut start) = names(&session) else {
            continue;
        };
        start.rotate_left(1);
        let stem = &file.stem;
        ensure!(
            apart(&start, &before) < NEAR,
            "{stem}: {start:?}, {before:?}"
        );
        ensure!(session.advance(0.05), "{stem}: nothing moves");
        let mut way = names(&session)?;
        way.rotate_left(1);
        ensure!(apart(&way, &start) > NEAR, "{stem}: it stands still");
        // Back, from wherever they are now.
        session.undo();
        ensure!(
            apart(&names(&session)?, &way) < NEAR,
            "{stem}: a jump on the way"
        );
        while session.advance(0.05) {}
        ensure!(
            apart(&names(&session)?, &before) < NEAR,
            "{stem}: it has not arrived"
        );
        session.redo();
        while session.advance(0.05) {}
        let arrived = ["section", "lever"].map(|drawing| picture(&session, drawing));
        session.settle();
        for (drawing, arrived) in ["section", "lever"].into_iter().zip(arrived) {
            ensure!(arrived? == picture(&session, drawing)?, "{stem}: {drawing}");
        }
        seen += 1;
    }
    ensure!(seen > 5, "{seen}");
    Ok(())
}
