// Tests mount any screen by itself: all words of the app are there.
import "../messages/later";
