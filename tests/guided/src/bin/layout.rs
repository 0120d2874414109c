//! Rows of edits on screen: every train is laid out, bettered and drawn.
#![no_main]

use levertrain_core::edit::text;
use levertrain_guided::{Bytes, beginnings, edit};
use levertrain_web::session::Session;
use levertrain_web::{Mended, pictures};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let mut bytes = Bytes(data);
    let beginnings = beginnings();
    let start = text(&beginnings[bytes.next() % beginnings.len()]);
    let Ok(mut session) = Session::open(&start) else {
        panic!("a beginning opens");
    };
    let mut steps = 0;
    while !bytes.0.is_empty() && steps < 12 {
        let scenario = session.train().scenario();
        if scenario.couplings.len() > 6 {
            break;
        }
        let Some(edit) = edit(&mut bytes, scenario) else {
            continue;
        };
        if session.edit(&edit, false).is_err() {
            continue;
        }
        steps += 1;
        // Now and then the drawing is left as it is at first.
        if bytes.next() % 2 == 0 {
            while session.mend(16) == Mended::Begun {}
        }
        let scene = pictures::scene(&session, "section", (900.0, 400.0));
        assert!(scene.is_ok());
        let _ = session.stage().grips();
    }
    while session.undo() {}
    assert_eq!(text(session.train().scenario()), start);
});
