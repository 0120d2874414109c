//! The sandbox in a frame of somebody else's page, on another host: what goes between the two, and what does not.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Page, own_site, page, required, skipped};
use levertrain_tests::files::root;
use serde_json::{Value, json};
use xtask::site::{self, Site};
use xtask::test_environment::SITE;

use crate::by_hand::{self, FIRST, SECOND, SIXTH};

/// What the page around it may do; the frames are on any port of this machine.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; \
    img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; frame-src 'self' http://127.0.0.1:*";

/// Keeps what comes from each frame, and asks them.
const HOST: &str = "window.heard = []; \
    window.frame = (id) => document.getElementById(id); \
    addEventListener('message', ({ data, origin, source }) => { \
        const [from] = [...document.querySelectorAll('iframe')].filter((node) => node.contentWindow === source); \
        heard.push({ from: from?.id, origin, data }); \
    }); \
    window.add = (id, src) => { \
        const node = document.createElement('iframe'); \
        Object.assign(node, { id, src, name: id, width: 900, height: 300, title: id }); \
        document.body.append(node); \
    }; \
    window.eventsOf = (id, name) => heard.filter(({ from, data }) => from === id && data.event === name); \
    window.post = (id, data) => frame(id).contentWindow.postMessage(data, '*'); \
    window.ask = (id, asked) => { \
        const mark = `mark ${Math.random()}`; \
        post(id, { levertrain: 1, id: mark, ...asked }); \
        return until(() => heard.find(({ data }) => data.reply === mark)?.data); \
    }; \
    window.until = async (found) => { \
        for (;;) { \
            const value = found(); \
            if (value) return value; \
            await new Promise((done) => setTimeout(done, 20)); \
        } \
    };";

/// Sends to its neighbour what only the page around both may send.
const SIBLING: &str = "parent.frames.other.postMessage({ levertrain: 1, id: 'sibling', command: 'apply', elements: [] }, '*'); \
    parent.postMessage({ sibling: 'has sent' }, '*');";

/// Opens a page that has frames, and gives where the frames come from: a host of their own.
fn open(name: &str, test: impl FnOnce(&mut Page, &Site) -> Result<()>) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let ours = site::start_under(&required(SITE)?, "tools/levertrain")?;
    let text = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Course</title>\
        <link rel=\"icon\" href=\"data:,\"><script src=\"host.js\"></script>\
        <script type=\"module\" src=\"element.js\"></script><h1>Course</h1>\
        <lever-train scenario=\"01-one-set\"></lever-train>";
    let sibling = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Sibling</title>\
        <script src=\"sibling.js\"></script>";
    let files = [
        ("host.html", text),
        ("host.js", HOST),
        ("sibling.html", sibling),
        ("sibling.js", SIBLING),
    ];
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let host = own_site::make(folder, &files)?;
    page::open_foreign(&host, POLICY, "host.html", |page| test(page, &ours))
}

/// The address of a frame in first gear that talks with this page.
fn first(page: &Page, from: &str) -> Result<String> {
    let host: String = page.get("encodeURIComponent(location.origin)", Value::Null)?;
    let (stem, first) = (by_hand::STEM, FIRST.id);
    Ok(format!(
        "{from}frame.html?scenario={stem}&range={first}&host={host}"
    ))
}

/// Adds the frame `other` from the other host, and waits until it is ready.
fn add_other(page: &Page, ours: &Site) -> Result<()> {
    page.run("add('other', args)", json!(first(page, ours.address())?))?;
    page.until("it is ready", "eventsOf('other', 'ready').length === 1")
}

fn ask(page: &Page, message: &Value) -> Result<Value> {
    page.get("ask('other', args)", message.clone())
}

/// Catches a command that does nothing, an answer that belongs to no question, and events that do not come.
#[test]
fn a_page_talks_with_a_frame_from_another_host() -> Result<()> {
    open("frame-talks", |page, ours| {
        add_other(page, ours)?;
        let only: bool = page.get(
            "heard.every(({ origin }) => origin === new URL(args).origin)",
            json!(ours.address()),
        )?;
        ensure!(only, "they do not come from {}", ours.address());
        let ready: Value = page.get("eventsOf('other', 'ready')[0].data", Value::Null)?;
        ensure!(
            ready["levertrain"] == 1 && ready["detail"]["ratio"]["fraction"] == FIRST.exact,
            "{ready}"
        );

        let reply = ask(
            page,
            &json!({ "command": "apply", "elements": SECOND.applied }),
        )?;
        ensure!(
            reply["value"]["ratio"]["fraction"] == SECOND.exact,
            "{reply}"
        );
        let changes: Vec<Value> = page.get(
            "eventsOf('other', 'change').map(({ data }) => data.detail.range)",
            Value::Null,
        )?;
        ensure!(changes.last() == Some(&json!(SECOND.id)), "{changes:?}");

        let reply = ask(
            page,
            &json!({ "command": "set", "attributes": { "range": SIXTH.id, "speed": "1500", "theme": null } }),
        )?;
        ensure!(reply["error"].is_null(), "{reply}");
        page.until(
            "it has changed",
            &format!(
                "eventsOf('other', 'change').at(-1).data.detail.range === '{}'",
                SIXTH.id
            ),
        )?;
        let reply = ask(page, &json!({ "command": "answer" }))?;
        ensure!(
            reply["value"]["ratio"]["fraction"] == SIXTH.exact,
            "{reply}"
        );

        let text = fs::read_to_string(root().join("scenarios/01-one-set.json"))?;
        let reply = ask(
            page,
            &json!({ "command": "open", "text": text, "name": "mine" }),
        )?;
        ensure!(
            reply["value"]["applied"].is_array()
                && reply["value"]["ratio"]["fraction"] != SIXTH.exact,
            "{reply}"
        );
        let reply = ask(page, &json!({ "command": "progress" }))?;
        ensure!(
            reply["value"].is_null() && reply["error"].is_null(),
            "{reply}"
        );

        // What goes wrong is told, too.
        page.run(
            "post('other', { levertrain: 1, id: 7, command: 'open', text: '{' })",
            Value::Null,
        )?;
        page.until(
            "the reply with its number",
            "heard.some(({ data }) => data.reply === 7 && data.error)",
        )?;
        page.until(
            "and the event",
            "eventsOf('other', 'error').some(({ data }) => data.detail.message)",
        )
    })
}

/// Catches a message that is heeded though it is none, and one that is not answered.
#[test]
fn what_is_no_message_is_answered_with_what_is_wrong() -> Result<()> {
    open("frame-malformed", |page, ours| {
        add_other(page, ours)?;
        let wrong = [
            ("'apply'", "object"),
            ("null", "object"),
            ("[1]", "object"),
            ("new Map([['levertrain', 1]])", "object"),
            ("{}", "levertrain: 1"),
            ("{ levertrain: 2, command: 'answer' }", "levertrain: 1"),
            ("{ levertrain: 1 }", "answer, apply, open, set"),
            (
                "{ levertrain: 1, command: 'toString' }",
                "answer, apply, open, set",
            ),
            ("{ levertrain: 1, command: 'apply' }", "needs elements"),
            ("{ levertrain: 1, command: 'apply', elements: 'V' }", "list"),
            (
                "{ levertrain: 1, command: 'apply', elements: [1] }",
                "each of elements",
            ),
            (
                "{ levertrain: 1, command: 'apply', elements: ['no-such'] }",
                "no-such",
            ),
            (
                "{ levertrain: 1, command: 'apply', elements: Array(1e5).fill('V') }",
                "up to 100",
            ),
            (
                "{ levertrain: 1, command: 'answer', text: '' }",
                "takes nothing",
            ),
            ("{ levertrain: 1, command: 'answer', id: {} }", "id is"),
            (
                "{ levertrain: 1, command: 'answer', id: 'x'.repeat(1e6) }",
                "id is",
            ),
            (
                "{ levertrain: 1, command: 'open', text: ' '.repeat(2e7) }",
                "65536",
            ),
            (
                "{ levertrain: 1, command: 'set', attributes: [] }",
                "attributes",
            ),
            (
                "{ levertrain: 1, command: 'set', attributes: { onclick: 'x' } }",
                "onclick",
            ),
            (
                "{ levertrain: 1, command: 'set', attributes: { range: '2', id: null } }",
                "id",
            ),
            (
                "{ levertrain: 1, command: 'set', attributes: { speed: 5 } }",
                "speed",
            ),
            (
                "{ levertrain: 1, command: 'set', attributes: { language: 'de' } }",
                "read once",
            ),
            (
                "{ levertrain: 1, command: 'set', attributes: { address: '' } }",
                "address",
            ),
            (
                "{ levertrain: 1, command: 'set', attributes: { train: '/secret.json' } }",
                "train is a file in",
            ),
            (
                "{ levertrain: 1, command: 'set', attributes: { train: 'https://school.example/a.json' } }",
                "train is a file in",
            ),
            ("{ levertrain: 1, command: 'progress', text: 3 }", "text is"),
        ];
        for (at, (data, said)) in wrong.into_iter().enumerate() {
            page.run(&format!("post('other', {data})"), Value::Null)?;
            page.until(
                data,
                &format!("heard.filter(({{ data }}) => 'reply' in data).length > {at}"),
            )?;
            let reply: Value = page.get(
                "heard.filter(({ data }) => 'reply' in data).at(-1).data",
                Value::Null,
            )?;
            let error = reply["error"]
                .as_str()
                .with_context(|| format!("{data}: {reply}"))?;
            ensure!(
                error.contains(said) && error.len() < 1000,
                "{data}: {error}"
            );
        }
        let reply = ask(page, &json!({ "command": "answer" }))?;
        ensure!(
            reply["value"]["ratio"]["fraction"] == FIRST.exact,
            "something was done: {reply}"
        );

        // A page that sends back all it hears must not be talked with for ever.
        let before: usize = page.get("heard.length", Value::Null)?;
        page.run(
            "for (const { data } of [...heard]) post('other', data)",
            Value::Null,
        )?;
        ask(page, &json!({ "command": "answer" }))?;
        let after: usize = page.get("heard.length", Value::Null)?;
        ensure!(after == before + 1, "{before} became {after}");
        Ok(())
    })
}

/// Catches messages that are read from, or sent to, anybody else than the page that is named.
#[test]
fn a_frame_hears_and_tells_nobody_else() -> Result<()> {
    open("frame-others", |page, ours| {
        add_other(page, ours)?;
        page.run("add('sibling', 'sibling.html')", Value::Null)?;
        page.until(
            "the sibling has sent",
            "heard.some(({ data }) => data.sibling)",
        )?;
        let reply = ask(page, &json!({ "command": "answer" }))?;
        ensure!(
            reply["value"]["ratio"]["fraction"] == FIRST.exact,
            "a sibling was heard: {reply}"
        );

        // From our own host these frames can be looked into.
        for (at, host) in [
            "&host=https://school.example",
            "&host=*",
            "&host=null",
            "&host=",
            "&host=http://127.0.0.1",
            "",
        ]
        .into_iter()
        .enumerate()
        {
            let id = format!("deaf{at}");
            let mut address = format!(
                "frame.html?scenario={}&range={}{host}",
                by_hand::STEM,
                FIRST.id
            );
            if host == "&host=http://127.0.0.1" {
                // Nearly the right one: with something behind the origin.
                let origin: String = page.get("location.origin", Value::Null)?;
                address = format!(
                    "frame.html?scenario={}&range={}&host={origin}/",
                    by_hand::STEM,
                    FIRST.id
                );
            }
            page.run("add(...args)", json!([id, address]))?;
            let train = format!("frame('{id}').contentDocument?.querySelector('lever-train')");
            page.until(
                host,
                &format!("{train}?.answer && {train}.dataset.frame > 0"),
            )?;
            page.run(
                &format!(
                    "post('{id}', {{ levertrain: 1, id: 'x', command: 'apply', elements: [] }})"
                ),
                Value::Null,
            )?;
            page.run(&format!("post('{id}', 'nonsense')"), Value::Null)?;
            // Whatever it had to say would be here before this.
            ask(page, &json!({ "command": "answer" }))?;
            page.get::<()>("new Promise((done) => setTimeout(done, 100))", Value::Null)?;
            let told: usize = page.get(
                &format!("heard.filter(({{ from }}) => from === '{id}').length"),
                Value::Null,
            )?;
            let range: String = page.get(&format!("{train}.answer.range"), Value::Null)?;
            ensure!(
                told == 0 && range == FIRST.id,
                "{host}: told {told} times, range {range}"
            );
            let said: bool = page.get(
                &format!("Boolean(frame('{id}').contentDocument.querySelector('.frame-problem'))"),
                Value::Null,
            )?;
            let wrong = !host.is_empty() && host != "&host=https://school.example";
            ensure!(said == wrong, "{host}: said {said}");
        }
        // The browser keeps what is for another page from this one, and says so.
        page.expect_fault("school.example");
        Ok(())
    })
}

/// Catches heights that do not fit, and a page and a frame that change each other's size for ever.
#[test]
fn a_page_can_fit_the_frame_to_what_is_in_it() -> Result<()> {
    open("frame-size", |page, _| {
        let address = format!("{}&with=ranges,chart", first(page, "")?);
        page.run(
            "addEventListener('message', ({ data }) => { if (data.event === 'size') frame('own').height = data.detail.height; }); \
             add('own', args)",
            json!(address),
        )?;
        page.until("it is ready", "eventsOf('own', 'ready').length === 1")?;
        for width in [900, 1600, 360] {
            page.run("frame('own').width = args", json!(width))?;
            let fits = "(() => { const { scrollHeight, clientHeight } = frame('own').contentDocument.documentElement; \
                const body = frame('own').contentDocument.body.getBoundingClientRect().height; \
                return scrollHeight <= clientHeight && Math.abs(clientHeight - body) < 1; })()";
            page.until(&format!("it fits {width}"), fits)?;
            page.get::<()>("new Promise((done) => setTimeout(done, 500))", Value::Null)?;
            let before: usize = page.get("eventsOf('own', 'size').length", Value::Null)?;
            ensure!(before < 60, "{before} sizes");
            page.get::<()>("new Promise((done) => setTimeout(done, 300))", Value::Null)?;
            let after: usize = page.get("eventsOf('own', 'size').length", Value::Null)?;
            ensure!(
                before == after && page.get::<bool>(fits, Value::Null)?,
                "it goes on"
            );
        }
        Ok(())
    })
}

/// Catches what is in the address and not heeded, what is wrong in it and not told, and scores that do not arrive.
#[test]
fn the_address_says_what_a_frame_shows() -> Result<()> {
    open("frame-address", |page, _| {
        let host: String = page.get("encodeURIComponent(location.origin)", Value::Null)?;
        let address = format!(
            "frame.html?scenario={}&exercise=scenario&language=de&theme=dark&sacnario=1&train=../a.json&host={host}",
            "01-one-set"
        );
        page.run("add('asks', args)", json!(address))?;
        let inside = "frame('asks').contentDocument";
        let shadow = format!("{inside}.querySelector('lever-train').shadowRoot");
        page.until("it asks", &format!("{inside}?.querySelector('lever-train')?.shadowRoot.querySelector('.exercise-asked')"))?;
        let told: [String; 3] = page.get(
            &format!("[{inside}.documentElement.lang, {inside}.querySelector('lever-train').getAttribute('data-theme'), \
                [...{inside}.querySelectorAll('.frame-problem')].map((node) => node.textContent).join('\\n')]"),
            Value::Null,
        )?;
        ensure!(told[0] == "de" && told[1] == "dark", "{told:?}");
        let ground: String = page.get(
            &format!(
                "frame('asks').contentWindow.getComputedStyle({inside}.documentElement).colorScheme"
            ),
            Value::Null,
        )?;
        ensure!(ground == "dark", "the frame around is {ground}");
        ensure!(
            told[2].contains("\"sacnario\"") && told[2].contains("train is a file in"),
            "{told:?}"
        );
        page.until(
            "the page is told, too",
            "eventsOf('asks', 'error').length === 2",
        )?;
        page.run(
            &format!("{shadow}.querySelector('[data-part=exercise-reveal]').click()"),
            Value::Null,
        )?;
        page.until("the score", "eventsOf('asks', 'score').length === 1")?;
        let score: Value = page.get("eventsOf('asks', 'score')[0].data.detail", Value::Null)?;
        ensure!(
            score["points"] == 0 && score["of"].as_u64().is_some_and(|of| of > 3),
            "{score}"
        );
        let progress: Value = page.get("ask('asks', { command: 'progress' })", Value::Null)?;
        ensure!(progress["value"].is_string(), "{progress}");
        Ok(())
    })
}
