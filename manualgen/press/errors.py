"""The one way the press fails.

A print can fail for reasons outside the manual: no browser, a browser that
dies twice, a full disk. All of them end the command with exit status 3 and one
sentence, so there is one exception.
"""


class PressError(Exception):
    """The press cannot go on; `str()` is the sentence to show.

    `job` names what was being printed or written, or is empty where nothing
    was yet begun.
    """

    exit_status = 3

    def __init__(self, message: str, job: str = "") -> None:
        super().__init__(f"{job}: {message}" if job else message)
        self.job = job
