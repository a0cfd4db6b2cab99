//! A member on supports that only push: reactions, moments, deflections; knows no house.
