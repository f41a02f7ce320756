"""Real clock, ids, files and database put into the actions; the only place that knows them all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from uuid import UUID

import uuid6

from .actions.auditor import Auditor
from .actions.backup import Backups, Held
from .actions.board import Board, Kept
from .actions.exchange import SealedJournal
from .actions.ports import Clock, Counters, Journal, Layouts, Limits, LookUp, Photos, Reader, Shop
from .actions.regular_backup import BackupPlan, RegularBackup
from .actions.release import ReleaseRoom
from .actions.release_finish import FirstLook, Nobody
from .actions.release_ports import Confirming
from .actions.small_picture import SMALL_EDGE_PX, SmallPictures
from .actions.statistics import Statistics
from .actions.verify import Bench
from .keys.authority import Served, served_with
from .keys.signing import SigningKey, signing_key
from .people.everyone import People, people_from
from .people.pins import Hashing
from .people.ports import Rows
from .readers.here import ReaderHere
from .readers.pool import ReaderPool, ShrinkingPool
from .readers.process import Bounds
from .settings import Settings
from .store.arriving_photos import ArrivingPhotos
from .store.backup_files import BackupFiles, restore_files
from .store.counters import CounterRows
from .store.database import Database
from .store.device_rows import DeviceRows
from .store.folder_lock import FolderLock
from .store.held_rows import HeldRows
from .store.journal_rows import JournalRows
from .store.kind_rows import KindRows
from .store.layout_files import LayoutFiles
from .store.lookups import LookupRows
from .store.people_rows import PeopleRows
from .store.photo_files import PhotoFiles
from .store.release_rows import ReleaseRows
from .store.sealed_rows import SealedRows
from .store.search_rows import SearchRows
from .store.summary_rows import SummaryRows


@dataclass(frozen=True, slots=True)
class Wired:
    """One shop's data opened: what the actions need, and the folded jobs kept between questions."""

    settings: Settings
    shop: Shop
    bench: Bench
    database: Database
    lock: FolderLock | None
    people: People
    board: Board
    statistics: Statistics
    regular_backup: RegularBackup
    shrinking: ShrinkingPool
    first_look: FirstLook
    pool: ReaderPool | None = None

    @property
    def journal(self) -> Journal:
        """Give the journal."""
        return self.shop.journal

    @property
    def photos(self) -> Photos:
        """Give the photos."""
        return self.shop.photos

    @property
    def look_up(self) -> LookUp:
        """Give the look-up tables."""
        return self.shop.look_up

    @property
    def small_pictures(self) -> SmallPictures:
        """Give what makes and keeps small pictures."""
        return SmallPictures(self.photos, self.shrinking)

    @property
    def counters(self) -> Counters:
        """Give the running numbers."""
        return self.shop.counters

    @property
    def layouts(self) -> Layouts:
        """Give the label layouts."""
        return self.shop.layouts

    @property
    def clock(self) -> Clock:
        """Give the clock."""
        return self.shop.clock

    def certificate(self, names: Sequence[str]) -> Served:
        """Give a certificate for HTTPS under these names, from the shop's own authority.

        Raises:
            StoreError: the folder of the keys cannot be used.
        """
        return served_with(self.settings.data / "keys", names, _now())

    @property
    def sealed(self) -> SealedJournal:
        """Give what takes lines that were sealed elsewhere."""
        return SealedRows(self.database)

    @property
    def auditor(self) -> Auditor:
        """Give what answers the auditor's questions."""
        return Auditor(self.bench, self.journal, KindRows(self.database))

    @property
    def search(self) -> SearchRows:
        """Give what finds entries by words."""
        return SearchRows(self.database)

    @property
    def releases(self) -> ReleaseRows:
        """Give what keeps signed releases."""
        return ReleaseRows(self.database)

    @property
    def signer(self) -> SigningKey:
        """Give the key that signs releases, made at first use."""
        return signing_key(self.settings.data / "keys")

    def release_room(self, people: Confirming) -> ReleaseRoom:
        """Put together what releasing works with; `people` confirms PINs and knows the leads."""
        return _release_room(self.settings, self.database, self.shop, self.bench, people)

    @property
    def backups(self) -> Backups:
        """Give what copies records and photos to a second folder."""
        return BackupFiles(self.database, self.settings.data / "photos")

    def warm(self) -> None:
        """Start what goes on beside the requests: the readers, and the regular backup."""
        if self.pool:
            self.pool.warm()
        self.regular_backup.start()
        self.first_look.start()

    def close(self) -> None:
        """Let backup, readers, database and folder go."""
        self.first_look.stop()
        self.regular_backup.stop()
        self.shrinking.close()
        if self.pool:
            self.pool.close()
        self.database.close()
        if self.lock:
            self.lock.release()


def wire(settings: Settings, *, serving: bool = False) -> Wired:
    """Open a shop's data folder, making it where there is none.

    Commands may work beside a server on one folder; only one server may (`serving`).

    Raises:
        StoreError: the folder cannot be used, or another server works on it.
    """
    lock = FolderLock(settings.data) if serving else None
    try:
        database = Database(settings.data)
    except BaseException:
        if lock:
            lock.release()
        raise
    photos = PhotoFiles(settings.data / "photos")
    if lock:
        photos.sweep()
    journal = JournalRows(database)
    pool = _pool(settings) if serving else None
    reader: Reader = pool or ReaderHere(settings.preview_edge_px)
    shop = Shop(
        journal=journal,
        photos=photos,
        arriving=ArrivingPhotos(settings.data / "arriving", settings.largest_photo),
        reader=reader,
        look_up=LookupRows(database),
        counters=CounterRows(database),
        layouts=LayoutFiles(settings.layouts),
        clock=_now,
        new_id=_new_id,
        limits=Limits(settings.largest_photo),
    )
    rows = Rows(PeopleRows(database), DeviceRows(database), HeldRows(database))
    people = people_from(rows, Hashing(*settings.pin_cost), _now)
    regular = RegularBackup(shop, BackupFiles(database, settings.data / "photos"), _backup_plan(settings))
    kept = Kept(SummaryRows(database))
    bench = Bench(journal, kept)
    board = Board(shop.look_up, bench, kept)
    statistics = Statistics(bench, KindRows(database))
    shrinking = ShrinkingPool(_bounds(settings, SMALL_EDGE_PX))
    beside = (regular, shrinking, _first_look(settings, database, shop, board))
    return Wired(settings, shop, bench, database, lock, people, board, statistics, *beside, pool)


def _first_look(settings: Settings, database: Database, shop: Shop, board: Board) -> FirstLook:
    def room() -> ReleaseRoom:
        return _release_room(settings, database, shop, board.bench, Nobody())

    return FirstLook(room, lambda: KindRows(database).jobs_of("release-signed"), board)


def _release_room(
    settings: Settings, database: Database, shop: Shop, bench: Bench, people: Confirming
) -> ReleaseRoom:
    return ReleaseRoom(
        shop,
        bench,
        ReleaseRows(database),
        signing_key(settings.data / "keys"),
        people,
        settings.address,
        settings.one_person,
    )


def wire_restored(settings: Settings, backup: Path) -> tuple[Wired, Held]:
    """Put a backup into the empty data folder that the settings name, and open it.

    Raises:
        BadInputError: there is no sound backup, or the folder is not empty.
        StoreError: the disk refused.
    """
    held = restore_files(backup, settings.data)
    return wire(settings), held


def _backup_plan(settings: Settings) -> BackupPlan | None:
    return BackupPlan(settings.backup, settings.backup_hours) if settings.backup else None


def _pool(settings: Settings) -> ReaderPool:
    """Make the readers of a server; a command decodes its person's own photos in its own process."""
    return ReaderPool(settings.readers, _bounds(settings, settings.preview_edge_px))


def _bounds(settings: Settings, edge_px: int) -> Bounds:
    return Bounds(settings.reader_memory, settings.reader_seconds, edge_px)


def _now() -> datetime:
    return datetime.now().astimezone()


def _new_id() -> UUID:
    return UUID(bytes=uuid6.uuid7().bytes)
