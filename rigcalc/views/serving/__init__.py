"""The server behind `rigcalc app`: Voila on loopback, our template, our pages, nothing from outside."""
