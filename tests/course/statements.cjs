// Validates statements, a JSON array in a file: node statements.cjs FOLDER-OF-PACKAGES FILE
"use strict";
const fs = require("fs");
const path = require("path");

const [, , packages, file] = process.argv;
const validate = require(path.join(packages, "xapi-validation")).default;
const statements = JSON.parse(fs.readFileSync(file, "utf8"));
console.log(JSON.stringify(statements.map((statement) => validate(statement).map((warning) => ({ problem: warning.constructor.name, path: warning.path })))));
