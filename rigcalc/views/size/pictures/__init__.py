"""The pictures: functions that give plain plotly descriptions, and the widget that shows them."""
