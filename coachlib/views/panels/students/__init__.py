"""The students' panel: sessions read back, figures, pages to print."""
