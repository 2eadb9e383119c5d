namespace Portwitness.History;

/// <summary>A token, without its secret.</summary>
/// <param name="Id">Its number, eight hexadecimal digits.</param>
/// <param name="Name">Whose it is.</param>
/// <param name="Role">What it is for.</param>
/// <param name="Created">When it was made.</param>
/// <param name="Expires">When it ends; null for never.</param>
/// <param name="Revoked">When it was revoked; null when it was not.</param>
public sealed record ApiToken(string Id, string Name, TokenRole Role, DateTimeOffset Created, DateTimeOffset? Expires, DateTimeOffset? Revoked)
{
    /// <summary>Whether it opens the door at a time.</summary>
    public bool IsValidAt(DateTimeOffset time) => Revoked is null && !(Expires <= time);
}
