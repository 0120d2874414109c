/**
 * The editor that the file of a train is written in: CodeMirror, put together with no more than that takes.
 * The task runner makes one file of it and of the packages, `editor/editor.js` of the site, which the page
 * imports when the text is first unfolded (`www/edit/lined_field.js`). Colours and sizes are the page's own
 * (`www/css/file.css`); the words in it are those that it is handed.
 */

import { defaultKeymap, history, redo, redoDepth, undo, undoDepth } from "@codemirror/commands";
import { LRLanguage, LanguageSupport, bidiIsolates, bracketMatching, continuedIndent, indentNodeProp, indentUnit, syntaxHighlighting } from "@codemirror/language";
import { Annotation, Compartment, EditorState, RangeSet, StateEffect, StateField, Transaction } from "@codemirror/state";
import { Decoration, EditorView, GutterMarker, gutter, keymap, lineNumbers } from "@codemirror/view";
import { tagHighlighter, tags } from "@lezer/highlight";
import { parser } from "@lezer/json";

/** @typedef {import("../../www/edit/lined_field.js").Form} Form */
/** @typedef {import("../../www/edit/lined_field.js").Heard} Heard */
/** @typedef {import("../../www/edit/lined_field.js").Mark} Mark */
/** @typedef {import("../../www/edit/lined_field.js").Named} Named */
/** @typedef {import("@codemirror/state").Text} Text */

/** A value of JSON, or a letter. */
const VALUE = /^(?:"(?:[^"\\]|\\.)*"?|[\w.+-]+|.)/u;

/** What is not typed by anybody. @type {import("@codemirror/state").AnnotationType<boolean>} */
const byThePage = Annotation.define();

/** @type {import("@codemirror/state").StateEffectType<Mark[]>} */
const setMarks = StateEffect.define();

/** A line that is begun within braces or brackets stands further in. */
const indents = indentNodeProp.add({ Object: continuedIndent({ except: /^\s*\}/ }), Array: continuedIndent({ except: /^\s*\]/ }) });
const json = LRLanguage.define({ parser: parser.configure({ props: [indents] }) });

/** What the styles know the parts of a text by. */
const colours = tagHighlighter([
  { tag: tags.propertyName, class: "file-key" },
  { tag: tags.string, class: "file-string" },
  { tag: [tags.number, tags.bool, tags.null], class: "file-value" },
  { tag: [tags.separator, tags.brace, tags.squareBracket], class: "file-sign" },
]);

class Flag extends GutterMarker {
  /** @override */
  toDOM() {
    const node = document.createElement("span");
    node.className = "file-flag";
    return node;
  }
}
const FLAG = new Flag();

const wrongLine = Decoration.line({ class: "file-wrong" });

/** What is marked: the lines with their flags, and the values in them. */
const marked = StateField.define({
  create: () => ({ flags: RangeSet.empty, lines: Decoration.none }),
  update(before, { changes, effects, newDoc }) {
    const marks = effects.find((effect) => effect.is(setMarks));
    if (marks) return marksIn(newDoc, marks.value);
    return { flags: before.flags.map(changes), lines: before.lines.map(changes) };
  },
  provide: (field) => [
    EditorView.decorations.from(field, ({ lines }) => lines),
    gutter({
      class: "file-flags",
      markers: (view) => view.state.field(field).flags,
      // As wide when there are none.
      initialSpacer: () => FLAG,
    }),
  ],
});

/**
 * @param {Text} text
 * @param {Mark[]} marks
 */
function marksIn(text, marks) {
  const placed = marks.map(({ line, column, words }) => {
    const { from, to, text: letters } = text.line(Math.min(line, text.lines));
    const start = Math.min(from + column - 1, to);
    const value = VALUE.exec(letters.slice(start - from))?.[0] ?? "";
    // At the end of a line it is what stands before that.
    const [first, last] = value === "" ? [Math.max(from, start - 1), start] : [start, start + value.length];
    return { line: from, from: first, to: last, words };
  });
  const starts = [...new Set(placed.map(({ line }) => line))];
  const values = placed
    .filter(({ from, to }) => from < to)
    .map(({ from, to, words }) => Decoration.mark({ class: "file-fault", attributes: { title: words } }).range(from, to));
  return {
    flags: RangeSet.of(starts.map((start) => FLAG.range(start)), true),
    lines: Decoration.set([...starts.map((start) => wrongLine.range(start)), ...values], true),
  };
}

/**
 * @param {HTMLElement} frame what it will stand in
 * @param {Named} named
 * @param {Heard} heard
 * @returns {Form}
 */
export function editor(frame, { name, described }, heard) {
  const steps = new Compartment();
  const access = new Compartment();
  const view = new EditorView({
    // Its styles go where the element's are, as a sheet: a page may forbid all others.
    root: /** @type {ShadowRoot | Document} */ (frame.getRootNode()),
    state: EditorState.create({
      extensions: [
        marked,
        lineNumbers(),
        steps.of(history()),
        access.of([]),
        new LanguageSupport(json),
        // Names that run leftwards stay between their quotes.
        bidiIsolates(),
        bracketMatching(),
        syntaxHighlighting(colours),
        indentUnit.of("  "),
        EditorState.tabSize.of(2),
        keymap.of([
          { key: "Mod-Enter", run: () => (heard.entered(), true) },
          { key: "Mod-z", run: (view) => (undoDepth(view.state) > 0 ? undo(view) : heard.back()), preventDefault: true },
          { key: "Mod-y", run: again, preventDefault: true },
          { key: "Mod-Shift-z", run: again, preventDefault: true },
          ...defaultKeymap,
        ]),
        EditorView.contentAttributes.of(({ state }) => ({
          "aria-label": name,
          // It can have the focus anyway; not every checker knows.
          tabindex: "0",
          "aria-describedby": described,
          "aria-invalid": String(state.field(marked).flags.size > 0),
        })),
        EditorView.domEventHandlers({
          paste: parts,
          drop: (event) => {
            // A file is opened by the page.
            if (event.dataTransfer?.files.length) return true;
            return parts();
          },
          blur: () => heard.left(),
        }),
        EditorView.updateListener.of(({ docChanged, transactions }) => {
          if (docChanged && !transactions.some((one) => one.annotation(byThePage))) heard.typed();
        }),
      ],
    }),
  });

  /** @param {EditorView} view */
  function again(view) {
    return redoDepth(view.state) > 0 ? redo(view) : heard.again();
  }

  function parts() {
    heard.parts();
    return false;
  }

  return {
    nodes: [view.dom],
    scroller: view.scrollDOM,
    get text() {
      return view.state.doc.toString();
    },
    get readOnly() {
      return view.state.readOnly;
    },
    set readOnly(only) {
      view.dispatch({ effects: access.reconfigure(EditorState.readOnly.of(only)) });
    },
    focus: () => view.focus(),
    replace(from, to, text) {
      view.dispatch({ changes: { from, to, insert: text }, annotations: [byThePage.of(true), Transaction.addToHistory.of(false)] });
    },
    settle() {
      // What is put in anew remembers nothing.
      view.dispatch({ effects: steps.reconfigure([]) });
      view.dispatch({ effects: steps.reconfigure(history()) });
    },
    mark(marks) {
      view.dispatch({ effects: setMarks.of(marks) });
    },
    select(at) {
      view.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: "center", yMargin: 0 }) });
      view.focus();
    },
    end: () => view.destroy(),
  };
}
