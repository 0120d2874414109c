/** The sheet of exercises that is put together or open in one part of the page, for others that hand it on. */

/** A sheet as a file has it. @typedef {{ format: number, title: string, walk?: string[], tasks: object[], scenario?: string }} SheetFile */

/** It says `sheet` whenever it is another. */
export class OpenSheet extends EventTarget {
  /** @type {SheetFile | undefined} */
  #file;

  get file() {
    return this.#file;
  }

  /** @param {SheetFile | undefined} file */
  set file(file) {
    if (JSON.stringify(file) === JSON.stringify(this.#file)) return;
    this.#file = file;
    this.dispatchEvent(new Event("sheet"));
  }
}
