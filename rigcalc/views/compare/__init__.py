"""The comparing page and the widgets it is made of: this one or that one?"""
