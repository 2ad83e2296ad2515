// Faults, not layout: unknown properties, values that do nothing, what overrules itself.
export default {
  extends: "stylelint-config-recommended",
  rules: {
    "color-no-hex": true, // colours have names, in colours.py, for both themes
    "declaration-block-no-redundant-longhand-properties": true,
    "function-url-no-scheme-relative": true,
    "no-descending-specificity": null, // rules stand by part of the page, not by weight
    "shorthand-property-no-redundant-values": true,
    "unit-allowed-list": ["px", "em", "rem", "%", "vh", "vw", "dvh", "cqi", "fr", "s", "ms", "deg", "ch", "mm", "pt"],
  },
  overrides: [{ files: ["../../rigcalc/views/sheet/*.css"], rules: { "color-no-hex": null } }], // printed: black on white
};
