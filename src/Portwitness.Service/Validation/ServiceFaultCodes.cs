namespace Portwitness.Service.Validation;

/// <summary>Codes of what goes wrong in the service itself.</summary>
public static class ServiceFaultCodes
{
    /// <summary>The report could not be kept.</summary>
    public const string NotKept = "report-not-kept";
}
