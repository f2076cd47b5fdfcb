-- Cost passed from lot to lot when the shop leaves the moving average.

INSERT INTO movement_kind (name) VALUES ('level');
