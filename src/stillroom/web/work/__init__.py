"""Solves in the background: one worker process, its tasks, and what they say while they run.

1. a page makes an ``Asked`` and gives it to the ``Worker``;
2. the worker process (``process``) answers it with ``solve``, the only module here that loads the
   solver, and sends news meanwhile;
3. a page reads the ``Task``: its state, its latest news, and in the end its ``Answer``.
"""
