using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>The object of a Revision message, RMDO (R3.2v1.1, Table 6.52). Any word is kept.</summary>
/// <remarks>The only place where a product says which edition of R3.x it follows.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct RevisionObject(uint Raw)
{
    private static readonly BitField RevisionMajorField = new("Revision.major", 31, 28);
    private static readonly BitField RevisionMinorField = new("Revision.minor", 27, 24);
    private static readonly BitField VersionMajorField = new("Version.major", 23, 20);
    private static readonly BitField VersionMinorField = new("Version.minor", 19, 16);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Revision Message Data Object", 32, "R3.2v1.1 Table 6.52",
        RevisionMajorField, RevisionMinorField, VersionMajorField, VersionMinorField, BitField.Reserved(15, 0));

    /// <summary>3 in R3.2v1.1.</summary>
    public int RevisionMajor => (int)RevisionMajorField.Get(Raw);

    /// <summary>2 in R3.2v1.1.</summary>
    public int RevisionMinor => (int)RevisionMinorField.Get(Raw);

    /// <summary>The first 1 in R3.2v1.1.</summary>
    public int VersionMajor => (int)VersionMajorField.Get(Raw);

    /// <summary>The last 1 in R3.2v1.1.</summary>
    public int VersionMinor => (int)VersionMinorField.Get(Raw);

    /// <summary>The edition; none for a revision that is not known.</summary>
    public Editions Edition => EditionNames.FromRevision(RevisionMajor, RevisionMinor);

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A number is not 0 to 15.</exception>
    public static RevisionObject Create(int revisionMajor, int revisionMinor, int versionMajor, int versionMinor)
    {
        uint word = RevisionMajorField.SetScaled(0, revisionMajor);
        word = RevisionMinorField.SetScaled(word, revisionMinor);
        word = VersionMajorField.SetScaled(word, versionMajor);
        return new RevisionObject(VersionMinorField.SetScaled(word, versionMinor));
    }

    /// <summary>For example "R3.2v1.1".</summary>
    public override string ToString() => $"R{RevisionMajor}.{RevisionMinor}v{VersionMajor}.{VersionMinor}";
}
