// Stands in for node:assert/strict where the editor suite runs in a browser.
module.exports = require('assert').strict;
