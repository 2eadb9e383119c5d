namespace Portwitness.History;

/// <summary>What a token is for.</summary>
public enum TokenRole
{
    /// <summary>Lists and opens reports.</summary>
    Read,

    /// <summary>Has captures, labels and products judged, and reads what came of it.</summary>
    Submit,

    /// <summary>Both, and looks after the queue.</summary>
    Admin,
}
