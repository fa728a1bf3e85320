"""The drawings of the sheets: pure functions that return shapes in millimetres of paper, y down."""
