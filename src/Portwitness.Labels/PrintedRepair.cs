namespace Portwitness.Labels;

/// <summary>Why something else was read than is printed.</summary>
public enum RepairKind
{
    /// <summary>A character that looks like another one: "2OV" is 20V. The value may be another one; see <see cref="Label.DoubtfulLines"/>.</summary>
    Characters,

    /// <summary>A sign that looks like that of direct current, or a ";" for a ":".</summary>
    Sign,

    /// <summary>A decimal comma, or digits in groups: "2,22A" is 2.22 A, "20.000 mAh" is 20000 mAh.</summary>
    Number,

    /// <summary>A rating that goes on in the next line.</summary>
    Wrap,

    /// <summary>A person says what is printed there.</summary>
    ByHand,
}

/// <summary>A place where something else was read than is printed.</summary>
/// <param name="Kind">Why.</param>
/// <param name="At">Where.</param>
/// <param name="Before">The printed words.</param>
/// <param name="After">What was read.</param>
public sealed record PrintedRepair(RepairKind Kind, Place At, string Before, string After);
