namespace Portwitness.Service.Telemetry;

/// <summary>How telemetry is carried to a collector.</summary>
public enum OtlpProtocol
{
    /// <summary>gRPC; collectors listen on port 4317.</summary>
    Grpc = 0,

    /// <summary>Protobuf in HTTP requests to /v1/metrics, /v1/traces and /v1/logs; collectors listen on port 4318.</summary>
    Http = 1,
}
