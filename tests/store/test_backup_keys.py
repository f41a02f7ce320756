"""A shop that is put back from a backup signs with the key that it had."""

import stat

from tests.actions.releases import JOB, released, sample_shop

from lastbolt.actions.audit_release import audit_releases
from lastbolt.actions.backup import back_up
from lastbolt.keys.signing import FILE_NAME, is_signed
from lastbolt.settings import settings_from
from lastbolt.wiring import wire_restored


def test_the_key_comes_back_and_what_was_signed_is_still_the_shops_own(tmp_path):
    wired = sample_shop(tmp_path / "shop", photos=False)
    released(wired)
    key = wired.signer.public
    back_up(wired.shop, wired.backups, tmp_path / "disk")
    wired.close()
    copied = tmp_path / "disk" / "keys" / FILE_NAME
    assert stat.S_IMODE(copied.stat().st_mode) == 0o600
    again, _ = wire_restored(settings_from({"LASTBOLT_DATA": str(tmp_path / "new")}), tmp_path / "disk")
    assert again.signer.public == key
    assert stat.S_IMODE((tmp_path / "new" / "keys" / FILE_NAME).stat().st_mode) == 0o600
    found = audit_releases(again.journal, again.releases, is_signed, JOB, own_key=again.signer.public)
    assert found.faults == () and len(found.said) == 1
    again.close()


def test_a_shop_that_never_signed_has_no_key_to_copy(tmp_path):
    wired = sample_shop(tmp_path / "shop", photos=False)
    back_up(wired.shop, wired.backups, tmp_path / "disk")
    wired.close()
    assert not (tmp_path / "disk" / "keys").exists()
