"""The only row with prose: numbers as people read them, and the phrases of each question, made from the models' facts.

Every view (terminal, page, sheet, JSON) takes its words from here and never parses them. A second language is a second folder.
"""
