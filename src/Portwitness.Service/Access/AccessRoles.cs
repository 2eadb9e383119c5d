namespace Portwitness.Service.Access;

/// <summary>What calls ask for, as claims have it.</summary>
internal static class AccessRoles
{
    public const string Read = nameof(History.TokenRole.Read);

    public const string Submit = nameof(History.TokenRole.Submit);

    public const string Admin = nameof(History.TokenRole.Admin);

    /// <summary>Whoever may have something judged.</summary>
    public const string Submitters = Submit + "," + Admin;

    /// <summary>Whoever may read.</summary>
    public const string Readers = Read + "," + Submitters;
}
