using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Profile;

/// <summary>
/// Which editions the source may follow. A source advertises the highest revision that it has; with an older sink it
/// falls back (R3.2v1.1, 6.2.1.1.5), so the highest that was seen counts.
/// </summary>
internal sealed class EditionTracker(Editions? stated)
{
    private static readonly (int Major, int Minor) NewestRead = (1, 1);

    private int _highestCode = -1;

    /// <summary>What the evidence leaves open.</summary>
    public Editions Open { get; private set; } = stated ?? Editions.All;

    /// <summary>The capture's header states an edition; what the user stated goes before it.</summary>
    public void State(string? edition)
    {
        if (stated is null && edition is not null && EditionNames.TryParse(edition, out Editions parsed))
        {
            stated = parsed;
            Open = parsed;
        }
    }

    /// <summary>The source declares a version of the standard that was read: R3.2v1.1 or one before.</summary>
    public bool VersionIsRead { get; private set; }

    /// <summary>The source declares its edition (Revision message, 6.4.12); what people state does not change that.</summary>
    public void Declared(RevisionObject revision)
    {
        Editions edition = revision.Edition;
        VersionIsRead = edition is Editions.R30 or Editions.R31
            || (edition == Editions.R32 && (revision.VersionMajor, revision.VersionMinor).CompareTo(NewestRead) <= 0);
        if (edition != Editions.None && edition != Editions.All)
        {
            stated = edition;
            Open = edition;
        }
    }

    /// <summary>A source's message shows a revision.</summary>
    public void Saw(int revisionCode)
    {
        if (revisionCode is > 2 || revisionCode <= _highestCode)
        {
            return;
        }

        _highestCode = revisionCode;
        if (stated is null)
        {
            Open = EditionNames.FromRevisionCode(revisionCode);
        }
    }
}
