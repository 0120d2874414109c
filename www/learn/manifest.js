/** What a course system reads of a package: `imsmanifest.xml`, after IMS Content Packaging and either SCORM. */

/**
 * @typedef {object} Course
 * @property {string} identifier one that no other lesson has, a name as XML has them
 * @property {string} title
 * @property {number} [pass] from how many percent it is passed
 * @property {string[]} files by their paths in the package, the page among them
 */

/** The page that is opened. */
export const PAGE = "lesson.html";

/** What XML 1.0 lets no text hold (section 2.2). */
const NOT_IN_XML = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu;
/** Longest title in characters that every course system takes. */
const LONGEST = 200;

/** SCORM 1.2, Content Aggregation Model 2.3. @param {Course} course */
export function manifest12(course) {
  const { pass } = course;
  const inItem = pass === undefined ? "" : `<adlcp:masteryscore>${pass}</adlcp:masteryscore>`;
  return manifest(course, {
    spaces: 'xmlns="http://www.imsproject.org/xsd/imscp_rootv1p1p2" xmlns:adlcp="http://www.adlnet.org/xsd/adlcp_rootv1p2"',
    version: "1.2",
    kind: 'adlcp:scormtype="sco"',
    inItem,
  });
}

/** SCORM 2004 4th Edition, Content Aggregation Model 3.4; its limits, 5.1. @param {Course} course */
export function manifest2004(course) {
  const { pass } = course;
  const measure =
    pass === undefined
      ? ""
      : '<imsss:objectives><imsss:primaryObjective objectiveID="score" satisfiedByMeasure="true">' +
        `<imsss:minNormalizedMeasure>${pass / 100}</imsss:minNormalizedMeasure></imsss:primaryObjective></imsss:objectives>`;
  // The lesson itself says whether it is completed and passed.
  const inItem = `<imsss:sequencing>${measure}<imsss:deliveryControls completionSetByContent="true" objectiveSetByContent="true"/></imsss:sequencing>`;
  return manifest(course, {
    spaces: 'xmlns="http://www.imsglobal.org/xsd/imscp_v1p1" xmlns:adlcp="http://www.adlnet.org/xsd/adlcp_v1p3" xmlns:imsss="http://www.imsglobal.org/xsd/imsss"',
    version: "2004 4th Edition",
    kind: 'adlcp:scormType="sco"',
    inItem,
  });
}

/**
 * @param {Course} course
 * @param {{ spaces: string, version: string, kind: string, inItem: string }} form
 */
function manifest({ identifier, title, files }, { spaces, version, kind, inItem }) {
  const name = escaped(title.replace(NOT_IN_XML, "").slice(0, LONGEST));
  const listed = files.map((file) => `      <file href="${escaped(encodeURI(file))}"/>\n`).join("");
  return `<?xml version="1.0" encoding="UTF-8"?>
<manifest identifier="${identifier}" version="1" ${spaces}>
  <metadata>
    <schema>ADL SCORM</schema>
    <schemaversion>${version}</schemaversion>
  </metadata>
  <organizations default="course">
    <organization identifier="course">
      <title>${name}</title>
      <item identifier="lesson" identifierref="page">
        <title>${name}</title>
        ${inItem}
      </item>
    </organization>
  </organizations>
  <resources>
    <resource identifier="page" type="webcontent" ${kind} href="${PAGE}">
${listed}    </resource>
  </resources>
</manifest>
`;
}

/** @param {string} text */
function escaped(text) {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
}
