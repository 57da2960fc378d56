"""The paper of a job: its sheets, their pages as pictures, the calendar file and all files of its plan."""
